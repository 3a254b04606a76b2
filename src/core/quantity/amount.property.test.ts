import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Amount, AnyAmount } from './amount.ts';
import { readAmount, readAmountAt } from './amount.ts';
import { formatAmount } from './print.ts';
import { unitNames } from './unit.ts';

const RUNS = Number(process.env.FUZZ_RUNS ?? 5000);

const SCRAPS = [
  ...unitNames(),
  ...'10 5 2 1.25 1,25 1,000 0.5 ½ 1/2 1e999 1.2e-3 10⁻³ 10^-3 １ ٣ NaN ∞'.split(' '),
  ...'× x * – - − to and of ca. about approx. ~ < ≥ up at least most further another'.split(' '),
  ...'a an half hour hours few several minutes drops portions each two three forty-five'.split(' '),
  ...'overnight room temperature RT r.t. pH excess the until constant mass spatula tip'.split(' '),
  ...'. , ; ( ) / % + ° \n \u00a0 \u202f \u2009 mL/min MG lb wt% w/v (w/w) flask N-methyl'.split(
    ' ',
  ),
  ' ',
  ' ',
  '\t',
];

const amountLike = fc
  .array(
    fc.oneof({ weight: 8, arbitrary: fc.constantFrom(...SCRAPS) }, fc.string({ maxLength: 4 })),
    {
      maxLength: 12,
    },
  )
  .chain((scraps) => fc.constantFrom(scraps.join(' '), scraps.join('')));

/** An amount-like text with one character taken out, doubled or replaced. */
const damaged = fc
  .tuple(amountLike, fc.nat(60), fc.constantFrom('', ' ', '-', '.', '×', '9', 'm', '\ud800'))
  .map(([text, at, put]) => text.slice(0, at) + put + text.slice(at + 1));

const texts = fc.oneof(amountLike, damaged, fc.string({ unit: 'binary', maxLength: 40 }));

function withoutText(amount: AnyAmount): object {
  return { ...amount, text: '' };
}

describe('any text', () => {
  test('is read without a throw, never past its end, and no word is lost', () => {
    fc.assert(
      fc.property(texts, (text) => {
        for (let start = 0; start <= text.length; start++) {
          const reading = readAmountAt(text, start);
          if (reading.kind === 'none') continue;
          expect(reading.end).toBeGreaterThan(start);
          expect(reading.end).toBeLessThanOrEqual(text.length);
          if (reading.kind === 'refused') {
            expect(reading.start).toBeGreaterThanOrEqual(start);
            expect(reading.hint).not.toBe('');
            continue;
          }
          expect(reading.amount.text).toBe(text.slice(start, reading.end));
          if (reading.amount.kind === 'unquantified') continue;
          const { value, high, repeat, digits } = reading.amount;
          expect(Number.isFinite(value)).toBe(true);
          expect(high === undefined || high > value).toBe(true);
          expect(repeat === undefined || (Number.isInteger(repeat) && repeat > 0)).toBe(true);
          expect(digits).toBeGreaterThan(0);
        }
      }),
      { numRuns: RUNS },
    );
  });

  test('that is an amount prints as the same amount', () => {
    fc.assert(
      fc.property(texts, (text) => {
        const reading = readAmountAt(text, 0);
        if (reading.kind !== 'amount' || reading.amount.kind === 'unquantified') return;
        const again = readAmount(formatAmount(reading.amount));
        expect(withoutText(again as AnyAmount)).toEqual(withoutText(reading.amount));
      }),
      { numRuns: RUNS },
    );
  });
});

const number = fc
  .tuple(
    fc.integer({ min: 0, max: 99_999 }),
    fc.option(fc.stringMatching(/^[0-9]{1,4}$/), { nil: undefined }),
    fc.constantFrom('', '', '', 'e-3', ' × 10⁻²', ' × 10^4'),
  )
  .map(
    ([whole, decimals, power]) => whole + (decimals === undefined ? '' : `.${decimals}`) + power,
  );

test('parse(print(x)) = x over every unit, with repeats, ranges and prefixes', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...unitNames(), 'pH'),
      number,
      fc.option(number, { nil: undefined }),
      fc.constantFrom('', '', '2 × ', '12 × '),
      fc.constantFrom(
        '',
        '',
        'ca. ',
        'up to ',
        'at least ',
        'a further ',
        'at least a further ca. ',
      ),
      (unit, low, high, repeat, prefix) => {
        const figures = high === undefined ? low : `${low} to ${high}`;
        const text =
          unit === 'pH' ? `${prefix}pH ${figures}` : `${prefix}${repeat}${figures} ${unit}`;
        const amount = readAmount(text);
        if (amount.kind === 'refused') return; // a falling range, 120 % w/w, pH 70
        const printed = formatAmount(amount);
        expect(withoutText(readAmount(printed) as Amount), printed).toEqual(withoutText(amount));
      },
    ),
    { numRuns: RUNS },
  );
});

test('the work of one call does not grow faster than the text', () => {
  const long = 200_000;
  const hostile = [
    '1'.repeat(long),
    '1 '.repeat(long),
    '1 × '.repeat(long),
    '1,'.repeat(long),
    `1${'\u00a0000'.repeat(long)}`,
    `until ${'a '.repeat(long)}`,
    'a further '.repeat(long),
    `5${' '.repeat(long)}g`,
    `5 mol${' '.repeat(long)}L`,
    '5 g–'.repeat(long),
    '-'.repeat(long),
    `1.${'0'.repeat(long)} g`,
    `1e${'9'.repeat(long)} g`,
  ];
  for (const text of hostile)
    expect(['none', 'refused', 'amount']).toContain(readAmountAt(text, 0).kind);
}, 10_000);
