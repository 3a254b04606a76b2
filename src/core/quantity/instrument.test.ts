import { describe, expect, test } from 'vitest';
import {
  allInstruments,
  balanceForReading,
  findInstrument,
  standardUncertaintyOfDifference,
  standardUncertaintyOfReading,
} from './instrument.ts';
import type { Instrument } from './instrument.ts';

function instrument(name: string): Instrument {
  const found = findInstrument(name);
  if (found === undefined) throw new Error(`no ${name}`);
  return found;
}

test('every row is whole, and every id and name finds it', () => {
  for (const row of allInstruments()) {
    expect(row.tolerance).toBeGreaterThan(0);
    expect(row.source).not.toBe('');
    expect(findInstrument(row.id)).toBe(row);
    expect(findInstrument(row.name)).toBe(row);
  }
  expect(allInstruments().length).toBeGreaterThan(80);
});

test.each([
  ['balance-1mg', 'balance-1mg'],
  ['1 mg balance', 'balance-1mg'],
  ['Balance 0.1 mg', 'balance-0.1mg'],
  ['25 mL measuring cylinder', 'measuring-cylinder-25-B'],
  ['25 mL measuring cylinder, class A', 'measuring-cylinder-25-A'],
  ['one-mark pipette 10 mL', 'one-mark-pipette-10-B'],
  ['piston pipette 200 μL', 'piston-pipette-200'],
  ['kettle', undefined],
  ['', undefined],
])('%s is %s', (name, id) => {
  expect(findInstrument(name)?.id).toBe(id);
});

describe('one reading', () => {
  test('of a balance: linearity, repeatability and the rounding of the display', () => {
    const { u, terms } = standardUncertaintyOfReading(instrument('balance-1mg'), 1.25);
    expect(terms.map(({ name }) => name)).toEqual(['linearity', 'repeatability', 'readability']);
    expect(terms[0]!.u).toBeCloseTo(0.002 / Math.sqrt(3), 12);
    expect(terms[1]!.u).toBe(0.001);
    expect(terms[2]!.u).toBeCloseTo(0.001 / Math.sqrt(12), 12);
    expect(u).toBeCloseTo(0.001 * Math.sqrt(4 / 3 + 1 + 1 / 12), 12);
  });

  test('of a volumetric flask with its temperature (QUAM A1: 0.04 and 0.05 mL)', () => {
    const flask = instrument('volumetric-flask-100-A');
    const { terms } = standardUncertaintyOfReading(flask, 100, {
      temperatureHalfWidth_C: 4,
      expansion_per_C: 2.1e-4,
    });
    expect(terms.map(({ name, u }) => [name, u.toFixed(3)])).toEqual([
      ['tolerance', '0.041'],
      ['temperature', '0.048'],
    ]);
  });

  test('of a syringe: a part of what is read', () => {
    const syringe = instrument('syringe-5');
    expect(standardUncertaintyOfReading(syringe, 4).u).toBeCloseTo(0.2 / Math.sqrt(3), 12);
    expect(standardUncertaintyOfReading(syringe, 0)).toEqual({ u: 0, terms: [] });
  });

  test('a difference counts every term twice', () => {
    const balance = instrument('balance-0.1mg');
    const one = standardUncertaintyOfReading(balance, 30).u;
    const { u, terms } = standardUncertaintyOfDifference(balance, 31.25, 30);
    expect(u).toBeCloseTo(Math.SQRT2 * one, 12);
    expect(terms.length).toBe(6);
  });
});

test.each([
  ['1.2500 g', 'balance-0.1mg'],
  ['1.250 g', 'balance-1mg'],
  ['1.250', 'balance-1mg'],
  ['1,25', 'balance-10mg'],
  ['12.5 mg', 'balance-0.1mg'],
  ['125 mg', 'balance-1mg'],
  ['10.0 g', 'balance-0.1g'],
  ['10 g', 'balance-0.1g'],
  ['0.000 g', 'balance-1mg'],
  ['1.25 kg', 'balance-0.1g'],
  ['1.234567 g', 'balance-0.1mg'],
  [3, 'balance-1mg'],
  ['10 mL', undefined],
  ['heavy', undefined],
  [Number.NaN, undefined],
])('the balance that shows %s', (reading, id) => {
  expect(balanceForReading(reading)?.id).toBe(id);
});
