import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { monteCarlo } from '../../quantity/monte-carlo.ts';
import { exact, measured, standardUncertainty } from '../../quantity/uncertain.ts';
import { areaPerHydrogen, conversionOf, purityByStandard, sharesOf } from './amounts.ts';
import { countsForTotals, simplestRatio } from './proton-counts.ts';

const amount = fc.double({ min: 0.01, max: 100, noNaN: true });

describe('shares', () => {
  test('sum to one, and the parts cancel in the sum', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(amount, fc.double({ min: 20, max: 500, noNaN: true })), {
          minLength: 1,
          maxLength: 5,
        }),
        (parts) => {
          const shares = sharesOf(
            parts.map(([value, molarMass_g_mol], i) => ({
              name: String(i),
              amount: measured(`i${i}`, value, 0.03 * value),
              molarMass_g_mol,
            })),
          );
          expect(shares.reduce((sum, one) => sum + one.mass.value, 0)).toBeCloseTo(1, 9);
          expect(shares.reduce((sum, one) => sum + one.mole.value, 0)).toBeCloseTo(1, 9);
          if (parts.length === 1) expect(standardUncertainty(shares[0]!.mass)).toBeCloseTo(0, 9);
        },
      ),
    );
  });
});

test('linear propagation of a purity agrees with drawing', () => {
  const inputs = { a: [2.0, 0.04], s: [1.0, 0.02], m: [20, 0.2], ms: [10, 0.2], p: [0.99, 0.005] };
  const of = (key: keyof typeof inputs) => measured(key, inputs[key][0]!, inputs[key][1]!);
  const share = purityByStandard({
    analyte: of('a'),
    standard: of('s'),
    analyteMolarMass_g_mol: exact(150),
    standardMolarMass_g_mol: exact(170),
    sampleMass_mg: of('m'),
    standardMass_mg: of('ms'),
    standardPurity: of('p'),
  });
  const drawn = monteCarlo(
    Object.entries(inputs).map(([id, [value, u]]) => ({
      id,
      value: value!,
      u: u!,
      shape: 'normal' as const,
    })),
    ([a, s, m, ms, p]) => ((a! / s!) * (150 / 170) * ms! * p!) / m!,
    100_000,
    7,
  );
  expect(share.value).toBeCloseTo(drawn.mean, 2);
  expect(standardUncertainty(share) / drawn.u).toBeCloseTo(1, 1);
});

test('a conversion of equal amounts is one half', () => {
  const one = areaPerHydrogen([{ id: 'a', integral: 6, hydrogens: 3, u: 0.2 }])!;
  const other = areaPerHydrogen([{ id: 'b', integral: 2, hydrogens: 1, u: 0.1 }])!;
  expect(conversionOf(one, other).value).toBe(0.5);
  expect(areaPerHydrogen([])).toBeUndefined();
});

describe('integrals as hydrogens', () => {
  const counts = fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 8 });
  test('are found again on any scale, within 2 %', () => {
    fc.assert(
      fc.property(
        counts,
        fc.double({ min: 1e-3, max: 1e3, noNaN: true }),
        fc.infiniteStream(fc.double({ min: -0.02, max: 0.02, noNaN: true })),
        (own, scale, noise) => {
          const integrals = own.map((n) => n * scale * (1 + noise.next().value!));
          const total = own.reduce((sum, n) => sum + n, 0);
          expect(countsForTotals(integrals, [total])?.counts).toEqual(own);
        },
      ),
    );
  });
  test('nothing to count', () => {
    expect(countsForTotals([], [5])).toBeUndefined();
    expect(countsForTotals([0, 0], [5])).toBeUndefined();
    expect(simplestRatio([])).toBeUndefined();
  });
});
