import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { settingsSchema } from '../../wire/settings.ts';
import type { Settings } from '../../wire/settings.ts';
import { figureIn, figureText } from './figure-in.ts';
import { formOf, hasPending, missingIn, settingsOf, wrongFigure, COLUMNS } from './form.ts';
import type { Form } from './form.ts';
import { mergeSettings } from './merge.ts';
import { rowOfUsual, usualOnes } from './usual.ts';

const id = fc.constantFrom('a', 'b', 'c', 'd', 'e');
const figure = (most: number) =>
  fc.integer({ min: 1, max: most * 1000 }).map((thousandths) => thousandths / 1000);
const unique = { selector: (each: { id: string }) => each.id, maxLength: 5 };
const settings: fc.Arbitrary<Settings> = fc.record({
  decimalSign: fc.constantFrom('.', ','),
  terms: fc.constantFrom('us', 'uk'),
  paper: fc.constantFrom('a4', 'letter'),
  balances: fc.uniqueArray(
    fc.record({
      id,
      name: fc.stringMatching(/^[a-z]{1,10}$/),
      readability_g: figure(10),
      repeatability_g: figure(10),
      linearity_g: figure(10),
      capacity_g: figure(100_000),
    }),
    unique,
  ),
  glassware: fc.uniqueArray(
    fc.record({
      id,
      name: fc.stringMatching(/^[a-z]{1,10}$/),
      volume_mL: figure(1000),
      tolerance_mL: figure(10),
    }),
    unique,
  ),
});

const EMPTY: Settings = {
  decimalSign: '.',
  terms: 'uk',
  paper: 'a4',
  balances: [],
  glassware: [],
};
const BALANCE = {
  id: 'balance-1',
  name: 'By the window',
  readability_g: 0.001,
  repeatability_g: 0.001,
  linearity_g: 0.002,
  capacity_g: 320,
};

describe('a figure as typed', () => {
  it.each([
    ['0.001', 0.001],
    ['0,001', 0.001],
    [' .5 ', 0.5],
    ['± 0,06', 0.06],
    ['0.1 mg', 0.0001],
    ['2 kg', 2000],
    ['20 µL', 0.02],
    ['20 ul', 0.02],
    ['1.', 1],
    ['1 000', 1000],
    ['1.2.3', undefined],
    ['-1', undefined],
    ['1e3', undefined],
    ['a balance', undefined],
    ['3 cm', undefined],
  ])('"%s" is %s', (text, value) => {
    expect(figureIn(text)).toBe(value);
  });

  it('is read back from how it is written', () => {
    fc.assert(
      fc.property(figure(100_000), fc.constantFrom('.' as const, ',' as const), (value, sign) => {
        expect(figureIn(figureText(value, sign))).toBe(value);
      }),
    );
  });

  it('is refused outside its bounds', () => {
    const [readability, repeatability] = COLUMNS.balances;
    expect(wrongFigure('0', readability!)).toMatch(/more than 0/);
    expect(wrongFigure('0', repeatability!)).toBeUndefined();
    expect(wrongFigure('11', readability!)).toMatch(/more than 10 g/);
    expect(wrongFigure('fine', readability!)).toMatch(/number, in g/);
  });
});

describe('the form', () => {
  it('gives back what was kept, whatever it is', () => {
    fc.assert(
      fc.property(settings, (kept) => {
        expect(settingsOf(formOf(kept), EMPTY)).toEqual(kept);
      }),
    );
  });

  it('keeps a row as it was while a figure of it is being written anew', () => {
    const kept = { ...EMPTY, balances: [BALANCE] };
    const form = formOf(kept);
    const emptied: Form = {
      ...form,
      balances: form.balances.map((row) => ({
        ...row,
        figures: { ...row.figures, capacity_g: '' },
      })),
    };
    expect(settingsOf(emptied, kept)).toEqual(kept);
    expect(missingIn(emptied.balances[0]!, 'balances')).toEqual(['Capacity']);
    expect(hasPending(emptied)).toBe(true);
    expect(formOf(kept, emptied)).toEqual(emptied);
  });

  it('leaves out a row that is not whole, and one that was taken out', () => {
    const form = formOf({ ...EMPTY, balances: [BALANCE] });
    const rows = [
      { ...form.balances[0]!, removed: true as const },
      { id: 'new', name: '', figures: {} },
    ];
    expect(settingsOf({ ...form, balances: rows }, EMPTY).balances).toEqual([]);
  });

  it('takes every usual instrument as it stands, twice under two ids', () => {
    for (const table of ['balances', 'glassware'] as const) {
      for (const usual of usualOnes(table)) {
        const first = rowOfUsual(usual, table, [], ',');
        const second = rowOfUsual(usual, table, [first], ',');
        expect(second.id).not.toBe(first.id);
        const form = { ...formOf(EMPTY), [table]: [first, second] };
        const made = settingsOf(form, EMPTY);
        expect(made[table]).toHaveLength(2);
        expect(settingsSchema.parse(made)).toEqual(made);
      }
    }
  });
});

describe('settings that changed elsewhere too', () => {
  it('are left alone where nothing was changed here', () => {
    fc.assert(
      fc.property(settings, settings, (theirs, base) => {
        const merged = mergeSettings(theirs, base, base);
        const sorted = (each: Settings) => ({
          ...each,
          balances: [...each.balances].sort((a, b) => a.id.localeCompare(b.id)),
          glassware: [...each.glassware].sort((a, b) => a.id.localeCompare(b.id)),
        });
        expect(sorted(merged)).toEqual(sorted(theirs));
      }),
    );
  });

  it('have every change of this page', () => {
    fc.assert(
      fc.property(settings, settings, (mine, base) => {
        expect(mergeSettings(base, mine, base)).toEqual(mine);
      }),
    );
  });

  it('keep what was added on both sides', () => {
    const mine = { ...EMPTY, balances: [BALANCE] };
    const theirs = {
      ...EMPTY,
      balances: [{ ...BALANCE, id: 'balance-2' }],
      paper: 'letter' as const,
    };
    const merged = mergeSettings(theirs, mine, EMPTY);
    expect(merged.balances.map((each) => each.id)).toEqual(['balance-1', 'balance-2']);
    expect(merged.paper).toBe('letter');
  });
});
