import fc from 'fast-check';
import { expect, test } from 'vitest';
import { balance, isBalanced } from './balance.ts';
import { addCompositions, compositionOf, scaleComposition } from './composition.ts';
import type { Composition } from './composition.ts';
import { rationalNear } from './rational.ts';

const FUZZ_RUNS = Number(process.env.FUZZ_RUNS ?? 2000);

const composition = (most: number): fc.Arbitrary<Composition> =>
  fc
    .tuple(
      fc.uniqueArray(
        fc.tuple(fc.constantFrom('C', 'H', 'O', 'N', 'Na'), fc.integer({ min: 1, max: most })),
        {
          minLength: 1,
          maxLength: 4,
          selector: ([symbol]) => symbol,
        },
      ),
      fc.constantFrom(0, 0, 0, 1, -1, 2),
    )
    .map(([counts, charge]) => compositionOf(counts, charge));

const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));

/** Whatever the answer, it must be true. */
function check(left: readonly Composition[], right: readonly Composition[]): void {
  const answer = balance(left, right);
  const portions = (side: readonly Composition[], numbers: readonly number[]) =>
    side.map((c, i) => ({ c, n: numbers[i]! }));
  if (answer.kind === 'balanced') {
    const all = [...answer.left, ...answer.right];
    expect(all.every((n) => Number.isInteger(n) && n > 0)).toBe(true);
    expect(all.reduce(gcd)).toBe(1);
    expect(isBalanced(portions(left, answer.left), portions(right, answer.right)).balanced).toBe(
      true,
    );
  } else if (answer.kind === 'several') {
    expect(answer.basis.length).toBeGreaterThan(1);
    for (const numbers of answer.basis)
      expect(
        isBalanced(portions(left, numbers), portions(right, numbers.slice(left.length))).balanced,
      ).toBe(true);
    // Together they use every substance.
    expect(
      [...left, ...right].every((_, i) => answer.basis.some((numbers) => numbers[i] !== 0)),
    ).toBe(true);
  } else expect(answer.message).not.toBe('');
}

test('every answer is true of random substances', () => {
  const side = fc.array(composition(4), { minLength: 1, maxLength: 4 });
  fc.assert(
    fc.property(side, side, (left, right) => check(left, right)),
    { numRuns: FUZZ_RUNS },
  );
});

test('an equation made to balance is found balanceable, with the numbers or several', () => {
  const made = fc.tuple(
    fc.array(fc.tuple(composition(6), fc.integer({ min: 1, max: 5 })), {
      minLength: 1,
      maxLength: 4,
    }),
    fc.integer({ min: 1, max: 4 }),
  );
  fc.assert(
    fc.property(made, ([parts, size]) => {
      const product = addCompositions(...parts.map(([c, n]) => scaleComposition(c, n)));
      if (product.counts.size === 0) return;
      const left = parts.map(([c]) => c);
      // The product is all of the left side, divided by a number.
      const right = [scaleComposition(product, 1 / size)];
      expect(balance(left, right).kind).not.toBe('impossible');
      check(left, right);
    }),
    { numRuns: FUZZ_RUNS },
  );
});

test('forty substances of two elements come to an answer', () => {
  const side = (shift: number): Composition[] =>
    Array.from({ length: 20 }, (_, i) =>
      compositionOf([
        ['C', i + 1],
        ['H', ((i * 7 + shift) % 23) + 1],
      ]),
    );
  expect(balance(side(1), side(2)).kind).toBe('several');
  expect(balance([...side(1), ...side(2)], side(3))).toMatchObject({ kind: 'impossible' });
});

test.each([
  [0.5, '1/2'],
  [1 / 3, '1/3'],
  [0.333333333333, '1/3'],
  [-2.25, '-9/4'],
  [7, '7/1'],
  [0.95, '19/20'],
])('%s is the fraction %s', (value, expected) => {
  const { over, under } = rationalNear(value);
  expect(`${over}/${under}`).toBe(expected);
});
