import { describe, expect, it } from 'vitest';
import { figuresIn } from '../../../core/report/reagents/reagents.ts';
import { enacted } from '../enacted.ts';
import { basisOf, rowsOf, standingOf, valueOf } from './rows.ts';

const TEXT = `# Benzoic acid

## Reaction

sodium benzoate + HCl -> benzoic acid + NaCl

## Vessels

- beaker: 100 mL beaker

## Procedure

1. Charge the beaker with sodium benzoate (10.0 mmol, 1.44 g) and water 20 mL.
2. Add 2 M hydrochloric acid 6 mL to the beaker dropwise.
3. Filter the beaker under vacuum; wash the solid with water 2 × 5 mL.

## Product

benzoic acid
`;

const { groups } = rowsOf(enacted(TEXT));
const rows = groups.flatMap((group) => group.rows);
const named = (name: string) => rows.filter(({ row }) => row.name === name);

describe('rows of the reagent table', () => {
  it('parts what reacts from what the work needs', () => {
    expect(groups.map(({ title }) => title)).toEqual(['For the reaction', 'Solvents and work-up']);
    expect(named('water').every((row) => groups[1]!.rows.includes(row))).toBe(true);
  });

  it('shows the amount that is believed, as it is written, for every taking', () => {
    expect(named('sodium benzoate')[0]?.takings).toEqual([
      { use: '1.1', step: '1', written: '1.44 g' },
    ]);
    expect(named('water').flatMap(({ takings }) => takings.map(({ written }) => written))).toEqual([
      '20 mL',
      '2 × 5 mL',
    ]);
  });

  it('gives moles only of what reacts, and says what limits', () => {
    const benzoate = named('sodium benzoate')[0]!.row;
    const water = named('water')[0]!.row;
    expect(valueOf(benzoate, 'amount')).toBeCloseTo(9.99, 1);
    expect(valueOf(water, 'amount')).toBeUndefined();
    expect(valueOf(water, 'volume')).toBe(20);
    expect(standingOf(benzoate, '.')).toBe('limits');
    expect(basisOf(benzoate, 'mass')).toBe('planned');
    const acid = rows.find(({ row }) => row.material.includes('hydrochloric'))!.row;
    expect(standingOf(acid, '.')).toBe('20 % over');
  });

  it('has the figures that were written, and says an excess to the same', () => {
    const document = enacted(
      [
        '# Figures',
        '## Reaction',
        'sodium benzoate + HCl -> benzoic acid + NaCl',
        '## Vessels',
        '- beaker: 100 mL beaker',
        '## Procedure',
        '1. Charge the beaker with sodium benzoate 1.40 g and water 15 mL.',
        '2. Add 2 M hydrochloric acid 15.0 mL to the beaker.',
        '3. Stir the beaker for 5 min.',
      ].join('\n\n'),
    );
    const found = rowsOf(document).groups.flatMap((group) => group.rows.map(({ row }) => row));
    const [benzoate, water, acid] = ['sodium benzoate', 'water', '2 M hydrochloric acid'].map(
      (name) => found.find(({ material }) => material === name)!,
    );
    expect(figuresIn(benzoate!, 'mass')).toBe(3);
    expect([figuresIn(water!, 'volume'), figuresIn(water!, 'mass')]).toEqual([2, 2]);
    // 30.0 mmol against 9.715 mmol: 3.09 equivalents
    expect(acid!.equivalents!.toPrecision(figuresIn(acid!, 'equivalents'))).toBe('3.09');
    expect(standingOf(acid!, '.')).toBe('209 % over');
  });
});
