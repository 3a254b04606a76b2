import { describe, expect, test } from 'vitest';
import type { AmountKind } from './amount.ts';
import { readAmount } from './amount.ts';
import { formatAmount, formatNumber, formatQuantity, formatWithUncertainty } from './print.ts';

describe('numbers to significant figures', () => {
  test.each([
    [1.25, 3, '1.25'],
    [1.2, 3, '1.20'],
    [10, 2, '10'],
    [123_456, 2, '120000'],
    [99.99, 3, '100'],
    [0.0001234, 2, '0.00012'],
    [0.00001234, 2, '1.2 × 10⁻⁵'],
    [999_999.5, 6, '1.00000 × 10⁶'],
    [1_234_567, 3, '1.23 × 10⁶'],
    [-78, 2, '−78'],
    [0, 1, '0'],
    [0, 3, '0.00'],
    [5, 0, '5'],
    [Number.NaN, 2, '–'],
    [-Infinity, 2, '−∞'],
  ])('%d to %d figures', (value, digits, text) => {
    expect(formatNumber(value, digits)).toBe(text);
  });

  test('without a wish: up to four figures, no idle zeros', () => {
    expect([1.5, 10, 2 / 3, 1234.56, 1e-9].map((x) => formatNumber(x))).toEqual([
      '1.5',
      '10',
      '0.6667',
      '1235',
      '1 × 10⁻⁹',
    ]);
  });

  test('a decimal comma', () => {
    expect(formatNumber(1.25, 3, { decimal: ',' })).toBe('1,25');
  });
});

describe('a quantity in the unit that reads best', () => {
  const cases: readonly (readonly [number, AmountKind, number | undefined, string])[] = [
    [1.25, 'mass', 3, '1.25 g'],
    [0.0125, 'mass', 3, '12.5 mg'],
    [0.15, 'mass', undefined, '0.15 g'],
    [1500, 'mass', undefined, '1.5 kg'],
    [0.00001, 'mass', 1, '10 µg'],
    [0.05, 'volume', undefined, '50 µL'],
    [1200, 'volume', 2, '1.2 L'],
    [0.5, 'volume', undefined, '0.5 mL'],
    [999.99999, 'volume', undefined, '1 L'],
    [0.02, 'amount', undefined, '20 µmol'],
    [20, 'amount', 2, '20 mmol'],
    [1500, 'amount', undefined, '1.5 mol'],
    [90, 'time', undefined, '90 min'],
    [960, 'time', undefined, '16 h'],
    [0.5, 'time', undefined, '30 s'],
    [20, 'temperature', undefined, '20 °C'],
    [-78, 'temperature', undefined, '−78 °C'],
    [7, 'pH', 2, 'pH 7.0'],
    [0, 'mass', undefined, '0 g'],
    [5, 'massPercent', undefined, '5 % w/w'],
    [10, 'moleFraction', undefined, '10 mol%'],
    [0.15, 'drops', undefined, '0.15 mL'],
  ];
  test.each(cases)('%d (%s)', (value, kind, digits, text) => {
    expect(formatQuantity(value, kind, digits, { space: ' ' })).toBe(text);
  });

  test('the blank neither breaks nor stretches, unless told otherwise', () => {
    expect(formatQuantity(1.25, 'mass', 3)).toBe('1.25\u202fg');
  });
});

describe('an amount in its own unit', () => {
  test.each([
    ['12.50 mg', '12.50 mg'],
    ['3 x 10 ml', '3 × 10 mL'],
    ['about 10 to 15 minutes', 'ca. 10–15 min'],
    ['-10 to -5 °C', '−10 to −5 °C'],
    ['another 5 mL', 'a further 5 mL'],
    ['below 5 °C', 'up to 5 °C'],
    ['one drop', '1 drop'],
    ['a few drops', 'a few drops'],
    ['another few drops', 'a further few drops'],
    ['rt', 'room temperature'],
    ['1.2e5 g', '1.2 × 10⁵ g'],
    ['9.5–10 min', '9.5–10.0 min'],
    ['9–10.5 min', '9–10.5 min'],
    ['2 spatulas', '2 spatulas'],
    ['pH 1–2', 'pH 1–2'],
  ])('%s', (text, printed) => {
    const amount = readAmount(text);
    if (amount.kind === 'refused') throw new Error(amount.message);
    expect(formatAmount(amount, { space: ' ' })).toBe(printed);
  });
});

describe('a value beside its uncertainty', () => {
  test.each([
    [78.3123, 0.1371, '78.31 ± 0.14'],
    [78.3123, 0.0996, '78.31 ± 0.10'],
    [1234.5, 123, '1230 ± 120'],
    [5, 0, '5'],
    [0, 0, '0'],
    [0, 0.5, '0.00 ± 0.50'],
    [-0.001, 0.5, '0.00 ± 0.50'],
    [1.25, Number.NaN, '1.25'],
    [1.234e-7, 2e-9, '(1.234 ± 0.020) × 10⁻⁷'],
    [2.5e7, 1e5, '(2.500 ± 0.010) × 10⁷'],
    [Number.NaN, 0.1, '–'],
    [123_456, 0, '123456'],
  ])('%d ± %d', (value, u, text) => {
    expect(formatWithUncertainty(value, u)).toBe(text);
  });
});
