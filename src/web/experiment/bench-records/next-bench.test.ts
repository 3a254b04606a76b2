import { expect, it } from 'vitest';
import { nextBench } from './next-bench.ts';

it.each([
  [[], 'Bench 1'],
  [['Bench 1', 'bench 3'], 'Bench 4'],
  [['R. Kessler', 'Bench 2b', 'Bench 2024 autumn'], 'Bench 1'],
])('after %j comes %s', (names, next) => {
  expect(nextBench(names)).toBe(next);
});
