import { describe, expect, it } from 'vitest';
import type { BenchField } from '../sheet.ts';
import {
  draftOf,
  draftText,
  measuredBy,
  doubtOf,
  netText,
  planText,
  readingsOf,
} from './typed-field.ts';

const KETONE: BenchField = {
  key: 'charge 1.1',
  kind: 'charge',
  use: '1.1',
  label: 'ketone, weighed',
  counts: true,
  unit: 'g',
  planned: { value: 1.12, text: '1.12 g' },
  low: 0.56,
  high: 2.24,
  decimals: 3,
  or: { unit: 'mL', decimals: 2 },
};
const GROSS: BenchField = {
  key: 'gross 18 flask 1',
  kind: 'gross',
  vessel: 'flask',
  label: 'flask, with what it holds',
  counts: true,
  unit: 'g',
  decimals: 3,
  n: 1,
  net: { tare: 'tare flask', planned_g: 1.14, low_g: 0.02, high_g: 1.37 },
};

it('says of a limit that it is one', () => {
  expect(planText(KETONE, ',')).toBe('plan 1,12 g');
  const limit = { value: 40, text: 'at most 40 °C', limit: true } as const;
  expect(planText({ ...KETONE, planned: limit }, '.')).toBe('at most 40 °C');
});

describe('a draft', () => {
  it.each([
    [{ texts: ['1.12'], other: false }],
    [{ texts: ['121.5', ''], other: false }],
    [{ texts: ['1.3'], other: true }],
    [{ texts: [''], other: false }],
  ])('is kept and comes back: %j', (draft) => {
    expect(draftOf(draftText(draft), draft.texts.length)).toEqual(draft);
  });
});

describe('readings', () => {
  it.each([
    [['1.120'], { value: 1.12, decimals: 3 }],
    [['121.5', '122.0'], { value: 121.5, high: 122, decimals: 1 }],
    [['123', '121'], { value: 121, high: 123 }],
    [['121.5', ''], undefined],
    [[''], undefined],
  ])('%j', (texts, readings) => {
    expect(readingsOf(texts, '.')).toEqual(readings);
  });
});

it('takes the other measure with its unit and without the bounds of the first', () => {
  expect(measuredBy(KETONE, true)).toMatchObject({ unit: 'mL', use: '1.1' });
  expect(measuredBy(KETONE, true)).not.toHaveProperty('low');
  expect(measuredBy(KETONE, false)).toBe(KETONE);
});

describe('a doubt', () => {
  it('is about the plan, or about what the vessel then holds', () => {
    expect(doubtOf({ value: 11.2 }, KETONE, undefined, '.')).toMatch(/^10 times the plan/);
    expect(doubtOf({ value: 1.1 }, KETONE, undefined, '.')).toBeUndefined();
    expect(doubtOf({ value: 58 }, GROSS, { value: 58.412 }, '.')).toMatch(/empty vessel/);
    expect(doubtOf({ value: 58 }, GROSS, undefined, '.')).toBeUndefined();
  });
});

it('gives the net with the decimals of the weighings', () => {
  expect(netText({ value: 59.31, decimals: 3 }, { value: 58.412 }, '.')).toBe('0.898\u202fg');
  expect(netText({ value: 59.412 }, { value: 58.412 }, '.')).toBe('1.000\u202fg');
  expect(netText({ value: 58 }, { value: 58.412 }, '.')).toBeUndefined();
  expect(netText({ value: 58 }, undefined, '.')).toBeUndefined();
});
