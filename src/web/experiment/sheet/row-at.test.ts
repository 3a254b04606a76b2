import { expect, it } from 'vitest';
import { partAt } from './row-at.ts';

it.each([
  [0, undefined],
  [40, 'one'],
  [89, 'one'],
  [90, 'two'],
  [500, 'foot'],
])('at %i lies %s', (y, key) => {
  const parts = [
    { key: 'two', y: 90 },
    { key: 'one', y: 40 },
    { key: 'foot', y: 200 },
  ];
  expect(partAt(parts, y)?.key).toBe(key);
});
