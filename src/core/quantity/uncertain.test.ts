import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { coverageFactor, effectiveDegreesOfFreedom } from './student.ts';
import type { Uncertain } from './uncertain.ts';
import {
  add,
  apply,
  budget,
  cholesky,
  correlated,
  correlation,
  cos,
  covariance,
  divide,
  exact,
  exp,
  expanded,
  log,
  measured,
  minimum,
  multiply,
  power,
  relativeUncertainty,
  scale,
  sin,
  standardUncertainty,
  subtract,
  sum,
} from './uncertain.ts';

const mass = fc.double({ min: 1, max: 100, noNaN: true });
const x = measured('x', 3, 0.3);
const y = measured('y', 2, 0.1);

describe('each operation has the slope that central differences give', () => {
  const pairs: readonly (readonly [string, Uncertain, (a: number, b: number) => number])[] = [
    ['add', add(x, y), (a, b) => a + b],
    ['subtract', subtract(x, y), (a, b) => a - b],
    ['multiply', multiply(x, y), (a, b) => a * b],
    ['divide', divide(x, y), (a, b) => a / b],
    ['scale', add(scale(x, 7), y), (a, b) => 7 * a + b],
    ['power', multiply(power(x, 2.5), y), (a, b) => a ** 2.5 * b],
    ['power 0', multiply(power(x, 0), y), (_, b) => b],
    ['sin', multiply(sin(x), y), (a, b) => Math.sin(a) * b],
    ['cos', multiply(cos(x), y), (a, b) => Math.cos(a) * b],
    ['exp', multiply(exp(x), y), (a, b) => Math.exp(a) * b],
    ['log', multiply(log(x), y), (a, b) => Math.log(a) * b],
  ];
  test.each(pairs)('%s', (_, by, f) => {
    const numeric = apply(f, [x, y]);
    expect(by.value).toBeCloseTo(numeric.value, 12);
    for (const id of ['x', 'y'])
      expect(by.parts.get(id) ?? 0).toBeCloseTo(numeric.parts.get(id) ?? 0, 7);
  });
});

describe('what two values share', () => {
  test('a tare taken off twice and put back twice cancels', () => {
    fc.assert(
      fc.property(
        fc.tuple(mass, mass, mass),
        fc.double({ min: 1e-4, max: 1, noNaN: true }),
        ([flask, first, second], u) => {
          const tare = measured('tare', flask, u);
          const crude = subtract(measured('crude', flask + first, u), tare);
          const pure = subtract(measured('pure', flask + second, u), tare);
          const lost = subtract(crude, pure);
          expect(Math.abs(lost.parts.get('tare') ?? 0)).toBe(0);
          expect(standardUncertainty(lost)).toBeCloseTo(Math.SQRT2 * u, 12);
          expect(correlation(crude, pure)).toBeCloseTo(0.5, 9);
        },
      ),
    );
  });

  test('x − x is 0 ± 0 and x/x is 1 ± 0', () => {
    expect(standardUncertainty(subtract(x, x))).toBe(0);
    expect(standardUncertainty(divide(x, x))).toBeCloseTo(0, 15);
  });

  test('the variance of a sum of correlated values is the sum over their covariance matrix', () => {
    const anyR = fc
      .array(
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 3, maxLength: 3 }),
        {
          minLength: 3,
          maxLength: 3,
        },
      )
      .map((rows) => {
        // Unit rows give a matrix of scalar products, which is a correlation matrix.
        const units = rows.map((row, i) => {
          const filled = row.map((c, j) => c + (i === j ? 2 : 0));
          const length = Math.hypot(...filled);
          return filled.map((c) => c / length);
        });
        return units.map((a) => units.map((b) => a.reduce((all, c, k) => all + c * b[k]!, 0)));
      });
    fc.assert(
      fc.property(anyR, (r) => {
        const u = [0.3, 0.1, 0.7];
        const values = correlated(['a', 'b', 'c'], [1, 2, 3], u, r);
        let variance = 0;
        for (let i = 0; i < 3; i++)
          for (let j = 0; j < 3; j++) {
            expect(covariance(values[i]!, values[j]!)).toBeCloseTo(r[i]![j]! * u[i]! * u[j]!, 12);
            variance += r[i]![j]! * u[i]! * u[j]!;
          }
        expect(standardUncertainty(sum(values)) ** 2).toBeCloseTo(variance, 12);
      }),
    );
  });

  test('fully correlated inputs are taken, contradictory correlations are not', () => {
    const [a, b] = correlated(
      ['a', 'b'],
      [1, 1],
      [0.1, 0.1],
      [
        [1, 1],
        [1, 1],
      ],
    );
    expect(standardUncertainty(subtract(a!, b!))).toBe(0);
    expect(() =>
      cholesky([
        [1, 2],
        [2, 1],
      ]),
    ).toThrow(RangeError);
  });
});

describe('what is asked of a value', () => {
  test('the budget is sorted and its shares add up', () => {
    const lines = budget(multiply(x, y));
    expect(lines.map(({ id }) => id)).toEqual(['x', 'y']);
    expect(lines[0]!.share + lines[1]!.share).toBeCloseTo(1, 12);
    expect(budget(exact(5))).toEqual([]);
  });

  test('relative, expanded, minimum', () => {
    expect(relativeUncertainty(x)).toBeCloseTo(0.1, 12);
    expect(relativeUncertainty(exact(0))).toBe(0);
    expect(relativeUncertainty(measured('z', 0, 1))).toBe(Infinity);
    expect(expanded(x)).toBeCloseTo(0.6, 12);
    expect(minimum([x, y])).toBe(y);
    expect(minimum([]).value).toBeNaN();
    expect(correlation(x, exact(1))).toBe(0);
  });

  test('a function that ends at its best value is taken from one side', () => {
    const root = apply((a) => Math.sqrt(a - 3), [measured('x', 3, 0)]);
    expect(root.parts.get('x')).toBe(0);
    expect(apply(Math.sqrt, [measured('x', 0, 0.01)]).parts.get('x')).toBeGreaterThan(0);
  });
});

describe('degrees of freedom', () => {
  test('of one measurement are its own; of none, infinite', () => {
    expect(effectiveDegreesOfFreedom(x, new Map([['x', 4]]))).toBeCloseTo(4, 12);
    expect(effectiveDegreesOfFreedom(x, new Map())).toBe(Infinity);
    expect(effectiveDegreesOfFreedom(exact(1), new Map())).toBe(Infinity);
  });

  test('the coverage factor is smooth, also between whole numbers and for very many', () => {
    const dofs = [1, 1.5, 2, 5, 9_999, 10_001, 1e9, Infinity];
    const ks = dofs.map((dof) => coverageFactor(dof));
    for (let i = 1; i < ks.length; i++) expect(ks[i]!).toBeLessThanOrEqual(ks[i - 1]!);
    expect(ks.at(-1)).toBeCloseTo(1.959963985, 8);
    // With one degree of freedom t is Cauchy's: k = tan(πp/2).
    expect(ks[0]).toBeCloseTo(Math.tan((0.95 * Math.PI) / 2), 9);
    expect(coverageFactor(0)).toBeNaN();
    expect(coverageFactor(5, 1)).toBeNaN();
  });
});
