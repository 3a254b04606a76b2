import { describe, expect, it } from 'vitest';
import { whenText } from './when.ts';

const now = new Date(2026, 2, 1, 0, 30);

describe('when something was kept', () => {
  it.each([
    [new Date(2026, 2, 1, 0, 5), 'today 00:05'],
    [new Date(2026, 1, 28, 23, 59), 'yesterday 23:59'],
    [new Date(2026, 1, 27, 9, 7), '2026-02-27 09:07'],
    [new Date(2025, 2, 1, 0, 5), '2025-03-01 00:05'],
  ])('%s is "%s"', (date, text) => {
    expect(whenText(date.toISOString(), now)).toBe(text);
  });
});
