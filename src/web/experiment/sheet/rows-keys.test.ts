import { expect, it } from 'vitest';
import { rowAfter } from './rows-keys.ts';

it.each([
  ['ArrowDown', '1', '2'],
  ['ArrowDown', '3', '3'],
  ['ArrowUp', '1', '1'],
  ['ArrowUp', '3', '2'],
  ['Home', '3', '1'],
  ['End', '1', '3'],
  ['PageDown', '1', '3'],
  ['a', '1', undefined],
])('%s from %s leads to %s', (key, from, to) => {
  expect(rowAfter(key, from, ['1', '2', '3'])).toBe(to);
});
