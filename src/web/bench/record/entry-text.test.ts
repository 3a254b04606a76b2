import { expect, it } from 'vitest';
import { entry } from '../outbox/testing.ts';
import { aboutText, figureText, remarkOf } from './entry-text.ts';

it.each([
  [{ value: 1.12, decimals: 4, unit: 'g' }, '1.1200\u202fg'],
  [{ value: 121.5, high: 122, decimals: 1, unit: '°C' }, '121.5–122.0\u202f°C'],
  [{ value: -4, unit: '°C' }, '−4\u202f°C'],
  [{ value: 3 }, '3'],
  [{}, ''],
])('%j', (said, text) => {
  expect(figureText(entry('a', said), '.')).toBe(text);
});

it('says what an entry is about that fills no field', () => {
  expect(aboutText(entry('a', { kind: 'gross', vessel: 'dish', n: 2 }))).toBe(
    'dish, with what it holds (2)',
  );
  expect(aboutText(entry('a', { kind: 'net' }))).toBe('net');
});

it('tells a remark from the reason of a correction', () => {
  const gross = entry('a', { kind: 'gross', text: 'queue for the evaporator' });
  expect(remarkOf(gross)).toBe('queue for the evaporator');
  expect(remarkOf({ ...gross, corrects: 'b' })).toBeUndefined();
  expect(remarkOf(entry('a', { corrects: 'b', text: 'gas, slowly' }))).toBe('gas, slowly');
});
