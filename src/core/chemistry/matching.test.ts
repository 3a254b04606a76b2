import fc from 'fast-check';
import { expect, test } from 'vitest';
import { unmatched } from './matching.ts';

function neighboursOf(n: number, edges: readonly (readonly [number, number])[]): number[][] {
  const lists: number[][] = Array.from({ length: n }, () => []);
  for (const [a, b] of edges) {
    if (a === b) continue;
    lists[a]!.push(b);
    lists[b]!.push(a);
  }
  return lists;
}

/** The largest number of pairs, by trying everything: the check on the quick way. */
function mostPairs(edges: readonly (readonly [number, number])[], used = 0): number {
  let best = 0;
  edges.forEach(([a, b], i) => {
    if (a === b || used & (1 << a) || used & (1 << b)) return;
    best = Math.max(best, 1 + mostPairs(edges.slice(i + 1), used | (1 << a) | (1 << b)));
  });
  return best;
}

test('as many pairs as trying everything finds', () => {
  const graph = fc
    .integer({ min: 1, max: 9 })
    .chain((n) =>
      fc.tuple(fc.constant(n), fc.array(fc.tuple(fc.nat(n - 1), fc.nat(n - 1)), { maxLength: 12 })),
    );
  fc.assert(
    fc.property(graph, ([n, edges]) => {
      const alone = unmatched(neighboursOf(n, edges)).length;
      return alone === n - 2 * mostPairs(edges);
    }),
    { numRuns: Number(process.env.FUZZ_RUNS ?? 2000) },
  );
});

test('two triangles joined by a bond pair up through both blossoms', () => {
  const edges = [
    [0, 1],
    [1, 2],
    [2, 0],
    [3, 4],
    [4, 5],
    [5, 3],
    [0, 3],
  ] as const;
  expect(unmatched(neighboursOf(6, edges))).toEqual([]);
});
