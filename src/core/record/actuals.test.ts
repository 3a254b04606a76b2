import { describe, expect, it } from 'vitest';
import { findInstrument, standardUncertaintyOfReading } from '../quantity/instrument.ts';
import { actualsOf, measurementsOf } from './actuals.ts';
import type { BenchEntry } from './entry.ts';
import { foldRecord } from './fold.ts';
import { benzoicAcid } from './testing/toy.ts';

const EXPERIMENT = benzoicAcid();

function folded(...lines: Partial<BenchEntry>[]) {
  const entries = lines.map((line, i): BenchEntry => ({
    id: `e${i}`,
    at: '2026-02-03',
    by: '',
    kind: 'net',
    ...line,
  }));
  return foldRecord(entries, EXPERIMENT);
}

/** Of one reading at about 1 g. */
function u(balance: string): number {
  return standardUncertaintyOfReading(findInstrument(balance)!, 1).u;
}

describe('what the interpreter takes from a bench', () => {
  it('charges by use, nets by step and vessel, the assay of a lot', () => {
    const run = folded(
      { kind: 'charge', use: '1.1', value: 1438.2, unit: 'mg' },
      { kind: 'charge', use: '2.1', value: 6.1, unit: 'mL' },
      { kind: 'lot', use: '1.1', value: 99, unit: '%', text: 'lot 12' },
      { kind: 'net', vessel: 'dish', value: 1.12, unit: 'g' },
    );
    const { charges, nets } = actualsOf(run);
    expect(charges.get('1.1')).toEqual({ mass_g: 1.4382, lastDigit: 0.0001, purity_percent: 99 });
    expect(charges.get('2.1')).toEqual({ volume_mL: 6.1, lastDigit: 0.1 });
    expect([...nets]).toEqual([['5|dish', 1.12]]);
  });

  it('leaves out a net of less than nothing', () => {
    const run = folded(
      { kind: 'tare', vessel: 'dish', value: 45, unit: 'g' },
      { kind: 'gross', vessel: 'dish', value: 44, unit: 'g' },
    );
    expect(run.nets[0]!.net_g).toBe(-1);
    expect(actualsOf(run).nets.size).toBe(0);
  });
});

describe('how well it is known', () => {
  const CASES: [name: string, entry: Partial<BenchEntry>, u: number, basis: string][] = [
    ['by the decimals', { value: 1.125 }, Math.SQRT2 * u('balance-1mg'), 'assumed'],
    ['by written zeros', { value: 1.1, decimals: 4 }, Math.SQRT2 * u('balance-0.1mg'), 'assumed'],
    ['by mg', { value: 1125, unit: 'mg' }, Math.SQRT2 * u('balance-1mg'), 'assumed'],
    [
      'by name',
      { value: 1.1, instrument: 'balance-1mg' },
      Math.SQRT2 * u('balance-1mg'),
      'measured',
    ],
    [
      'by the readability in a name of its own',
      { value: 1.1, instrument: 'balance 2 (0.001 g)' },
      Math.SQRT2 * u('balance-1mg'),
      'measured',
    ],
    [
      'by a name that says nothing',
      { value: 1.125, instrument: 'the one by the door' },
      Math.SQRT2 * u('balance-1mg'),
      'assumed',
    ],
    // half of 0.1 mL, rectangular
    [
      'a volume',
      { kind: 'charge', use: '2.1', value: 6.1, unit: 'mL' },
      0.05 / Math.sqrt(3),
      'assumed',
    ],
  ];
  it.each(CASES)('%s', (_name, entry, expected, basis) => {
    const place = entry.use === undefined ? { vessel: 'dish' } : {};
    const [measurement] = measurementsOf(folded({ unit: 'g', ...place, ...entry }));
    expect(measurement!.u).toBeCloseTo(expected, 12);
    expect(measurement!.basis).toBe(basis);
  });

  it('has a reading that is used twice once', () => {
    const run = folded(
      { kind: 'tare', vessel: 'dish', value: 40, unit: 'g' },
      { kind: 'gross', vessel: 'dish', step: '5', value: 41, unit: 'g' },
    );
    expect(measurementsOf(run).map((each) => each.what)).toEqual([
      'gross of the dish, step 5',
      'tare of the dish',
    ]);
  });
});

describe('where a weighing belongs', () => {
  it('asks when its step does not weigh that vessel', () => {
    const run = folded({ kind: 'gross', vessel: 'dish', step: '3', value: 41, unit: 'g' });
    expect(run.nets).toEqual([]);
    expect(run.diagnostics).toMatchObject([
      { code: 'entry-unplaced', hint: 'The dish is weighed in step 5: say which.' },
    ]);
  });
  it('takes the vessel of the step, and the step of the vessel', () => {
    expect(folded({ step: '5', value: 1, unit: 'g' }).nets).toMatchObject([{ vessel: 'dish' }]);
    expect(folded({ vessel: 'the Dish', value: 1, unit: 'g' }).nets).toMatchObject([{ step: '5' }]);
  });
  it('does not mind the name of the product beside the vessel', () => {
    const run = folded({ vessel: 'dish', step: '5', item: 'benzoic acid', value: 1, unit: 'g' });
    expect(run.nets).toHaveLength(1);
    expect(run.diagnostics).toEqual([]);
  });
});
