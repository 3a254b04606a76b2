import { expect, it } from 'vitest';
import { OBSERVED, withWord } from './observed-words.ts';

it('puts a word behind what was written, and takes it away again', () => {
  expect(withWord('', 'gas')).toBe('gas');
  expect(withWord('foams at first', 'gas')).toBe('foams at first, gas');
  expect(withWord('foams at first, gas', 'gas')).toBe('foams at first');
});

it('spells as the laboratory does', () => {
  expect(OBSERVED.uk[0]).toBe('colour change');
  expect(OBSERVED.us[0]).toBe('color change');
});
