import { describe, expect, test } from 'vitest';
import type { MonteCarloInput, Shape } from './monte-carlo.ts';
import { monteCarlo, monteCarloColumns } from './monte-carlo.ts';
import { seededRandom } from './random.ts';
import { apply, measured, standardUncertainty } from './uncertain.ts';

function input(id: string, value: number, u: number, shape: Shape = 'normal'): MonteCarloInput {
  return { id, value, u, shape };
}

/** Percent yield from two weighings by difference: mass, tare, both for reagent and product. */
const INPUTS = [
  input('reagent', 3.2451, 0.0002),
  input('reagentTare', 2.0012, 0.0002, 'rectangular'),
  input('product', 31.1183, 0.0014),
  input('productTare', 30.1526, 0.0014),
  input('purity', 0.985, 0.003, 'triangular'),
  input('ratio', 0.9895, 0.0001),
];
const yieldOf = (...x: number[]): number =>
  (100 * (x[2]! - x[3]!) * x[5]!) / ((x[0]! - x[1]!) * x[4]!);

describe('drawing a yield', () => {
  const linear = apply(
    yieldOf,
    INPUTS.map(({ id, value, u }) => measured(id, value, u)),
  );
  const rows = monteCarlo(INPUTS, (d) => yieldOf(...d), 100_000, 7);

  test('agrees with linear propagation', () => {
    expect(Math.abs(rows.u / standardUncertainty(linear) - 1)).toBeLessThan(0.01);
    expect(Math.abs(rows.mean - linear.value)).toBeLessThan(0.01);
    const width = (rows.high - rows.low) / (2 * 1.96 * standardUncertainty(linear));
    expect(Math.abs(width - 1)).toBeLessThan(0.02);
  });

  test('by columns gives the same draws', () => {
    const columns = monteCarloColumns(
      INPUTS,
      (x, out) => {
        for (let i = 0; i < out.length; i++) out[i] = yieldOf(...x.map((column) => column[i]!));
      },
      100_000,
      7,
    );
    expect(columns).toEqual(rows);
  });

  test('the seed settles the result', () => {
    expect(monteCarlo(INPUTS, (d) => yieldOf(...d), 5000, 7)).toEqual(
      monteCarlo(INPUTS, (d) => yieldOf(...d), 5000, 7),
    );
    expect(monteCarlo(INPUTS, (d) => yieldOf(...d), 5000, 8)).not.toEqual(
      monteCarlo(INPUTS, (d) => yieldOf(...d), 5000, 7),
    );
  });
});

describe('shapes', () => {
  test.each([
    ['normal', 1.96],
    // Of a half-width a: 0.95 a, and a(1 − √0.05), with a = √3 and √6.
    ['rectangular', 0.95 * Math.sqrt(3)],
    ['triangular', (1 - Math.sqrt(0.05)) * Math.sqrt(6)],
  ] as const)('%s', (shape, reach) => {
    const drawn = monteCarlo([input('x', 5, 1, shape)], (d) => d[0]!, 200_000, 11);
    expect(drawn.mean).toBeCloseTo(5, 1);
    expect(drawn.u).toBeCloseTo(1, 1);
    expect(Math.abs(drawn.low - (5 - reach))).toBeLessThan(0.02);
    expect(Math.abs(drawn.high - (5 + reach))).toBeLessThan(0.02);
  });

  test('the normal draws follow the normal distribution into its tails', () => {
    const random = seededRandom(3);
    const n = 400_000;
    const limits = [-3.6, -2, -1, -0.25, 0, 0.25, 1, 2, 3.6];
    const below = limits.map(() => 0);
    let fourth = 0;
    for (let i = 0; i < n; i++) {
      const z = random.normal();
      fourth += z ** 4;
      limits.forEach((limit, j) => {
        if (z < limit) below[j]!++;
      });
    }
    // Normal table: Abramowitz and Stegun, table 26.1.
    const expected = [
      0.000159, 0.02275, 0.158655, 0.401294, 0.5, 0.598706, 0.841345, 0.97725, 0.999841,
    ];
    below.forEach((count, j) => {
      const p = expected[j]!;
      expect(Math.abs(count / n - p)).toBeLessThan(4.5 * Math.sqrt((p * (1 - p)) / n));
    });
    expect(fourth / n).toBeCloseTo(3, 1);
  });
});

describe('edges', () => {
  test('draws that give no number are left out', () => {
    const half = monteCarlo([input('x', 0, 1)], (d) => Math.sqrt(d[0]!), 10_000, 1);
    expect(half.n).toBeGreaterThan(4500);
    expect(half.n).toBeLessThan(5500);
    expect(half.low).toBeGreaterThanOrEqual(0);
  });

  test.each([
    [0, 0],
    [1, 1],
    [2, 2],
    [Number.NaN, 0],
    [-5, 0],
  ])('%d draws', (n, kept) => {
    const drawn = monteCarlo([input('x', 1, 0)], (d) => d[0]!, n, 1);
    expect(drawn.n).toBe(kept);
    if (kept > 0) expect([drawn.low, drawn.high, drawn.mean]).toEqual([1, 1, 1]);
  });
});
