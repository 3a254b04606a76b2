import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { afterKey, inSign, numberOf, numberText, onlyNumber } from './typed-number.ts';
import type { Typing } from './typed-number.ts';

const POINT: Typing = { sign: '.', minus: false };
const COMMA: Typing = { sign: ',', minus: true };
const keyed = (keys: string, typing: Typing) =>
  Array.from(keys).reduce((text, key) => afterKey(text, key, typing), '');

describe('keys', () => {
  it.each([
    ['1.1243', POINT, '1.1243'],
    ['1,5', POINT, '1.5'],
    ['1.5', COMMA, '1,5'],
    ['.5', POINT, '0.5'],
    ['1..5', POINT, '1.5'],
    ['-5', POINT, '5'],
    ['5-', COMMA, '-5'],
    ['5--', COMMA, '5'],
    ['-.5', COMMA, '-0,5'],
    ['1x2', POINT, '12'],
    ['12345678901234', POINT, '123456789012'],
  ])('%s', (keys, typing, text) => {
    expect(keyed(keys, typing)).toBe(text);
  });
});

describe('what is typed or pasted', () => {
  it.each([
    [' 1.12 g', POINT, '1.12'],
    ['−12,5 °C', COMMA, '-12,5'],
    ['-3', POINT, '3'],
    ['', POINT, ''],
  ])('%s', (text, typing, typed) => {
    expect(onlyNumber(text, typing)).toBe(typed);
  });
});

describe('the number', () => {
  it.each([
    ['1.1200', { value: 1.12, decimals: 4 }],
    ['1.12', { value: 1.12 }],
    ['12.', { value: 12 }],
    ['10', { value: 10 }],
    ['0.0', { value: 0, decimals: 1 }],
    ['-0', { value: 0 }],
    ['', undefined],
    ['-', undefined],
  ])('%s', (text, number) => {
    expect(numberOf(text, '.')).toEqual(number);
  });

  it('comes back as it was typed', () => {
    const digits = (most: number) =>
      fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 1, maxLength: most });
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 99_999 }),
        fc.option(digits(6)),
        fc.constantFrom('.' as const, ',' as const),
        (whole, part, sign) => {
          const text = part === null ? `${whole}` : `${whole}${sign}${part.join('')}`;
          expect(numberText(numberOf(text, sign)!, sign)).toBe(text);
        },
      ),
    );
  });
});

it('writes a text of the sheet with a comma', () => {
  expect(inSign('1.12 g in 2.5 mL.', ',')).toBe('1,12 g in 2,5 mL.');
});
