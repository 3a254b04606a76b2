import { describe, expect, it } from 'vitest';
import { decodeOrdinates } from './ordinates.ts';

const options = { decimalComma: false, room: 1000 };
const decoded = (text: string, decimalComma = false) =>
  decodeOrdinates(text, 0, text.length, { ...options, decimalComma });

function values(text: string): number[] {
  const read = decoded(text);
  if ('reason' in read) throw new Error(read.reason);
  return [...read.values];
}

function fault(text: string) {
  const read = decoded(text);
  return 'reason' in read ? { kind: read.kind, line: read.line } : 'read';
}

describe('the worked example of the standard: one series in every form', () => {
  // McDonald and Wilks, Appl. Spectrosc. 1988, 42, 151, section 5: the series and its forms.
  // The letters as this file remembers them (from memory).
  const series = [1, 2, 3, 3, 2, 1, 0, -1, -2, -3];
  it.each([
    ['FIX', '0 1 2 3 3 2 1 0 -1 -2 -3'],
    ['PAC', '0 1+2+3+3+2+1+0-1-2-3'],
    ['SQZ', '0 1BCCBA@abc'],
    ['DIF', '0 1JJ%jjjjjj'],
    ['DIFDUP', '0 1JT%jX'],
  ])('%s', (_, line) => {
    expect(values(line)).toEqual(series);
  });

  // Ibid., Table VI: 53 ordinates in DIFDUP with their check, and the same in FIX (from memory).
  it('the table of 53 ordinates, with the check value on a line of its own', () => {
    const text = '4@VKT%TLkj%J%KLJ%njKjL%kL%jJULJ%kLK1%lLMNPNPRLJ0QTOJ1P\n56A28';
    const printed =
      '0 0 0 0 2 4 4 4 7 5 4 4 5 5 7 10 11 11 6 5 7 6 9 9 7 10 10 9 10 11 12 15 16 16 14 17 38 38 ' +
      '35 38 42 47 54 59 66 75 78 88 96 104 110 121 128';
    expect(values(text)).toEqual(printed.split(' ').map(Number));
    expect(decoded(text)).toMatchObject({
      endsInCheck: true,
      marks: [
        { x: 4, index: 0 },
        { x: 56, index: 52 },
      ],
    });
  });
});

describe('forms and their corners', () => {
  it.each([
    [
      'an exponent is no squeezed digit',
      '400 1.1093e-02 0.10971E-1 2E+3',
      [0.011093, 0.10971e-1, 2000],
    ],
    ['E without a sign is a squeezed 5', '400 1E2', [1, 52]],
    ['two squeezed numbers and an exponent that is none', '4000E123e4', [5123, -54]],
    ['a squeezed number behind a decimal abscissa', '0.0012a065a458', [-1065, -1458]],
    ['a sign parts packed numbers', '7797.62+890376702-12', [890376702, -12]],
    ['commas part numbers', '1 2,3,4', [2, 3, 4]],
    ['decimals in full', '1 0.1 .5 5. -0.25', [0.1, 0.5, 5, -0.25]],
    ['a repeat of a value', '1 A5T', [15, 15]],
    [
      'a repeat of a difference',
      '1A0J1S2',
      [10, ...Array.from({ length: 12 }, (_, i) => 21 + 11 * i)],
    ],
    ['s is nine', '1A0s', Array.from({ length: 9 }, () => 10)],
    ['a missing value, then squeezed again', '1 A? B', [1, Number.NaN, 2]],
    ['missing values repeated', '1 A?U', [1, Number.NaN, Number.NaN, Number.NaN]],
    ['comments and empty lines', '$$ a\n\n1 2 3 $$ 4 5\n3 4\n', [2, 3, 4]],
    ['a check counts once', '0 1JJ\n2 3J\n3 4', [1, 2, 3, 4]],
    ['no check behind a squeezed end', '0 1JB\n3 3', [1, 2, 2, 3]],
    ['more figures than a number holds', '1 123456789012345678901', [123456789012345680000]],
  ])('%s', (_, text, expected) => {
    expect(values(text)).toEqual(expected);
  });

  it('a decimal comma where the headers have one', () => {
    expect(decoded('399,212 75,5 76,25', true)).toMatchObject({
      values: Float64Array.of(75.5, 76.25),
      marks: [{ x: 399.212, unit: 0.001 }],
    });
  });

  it.each([
    ['a check that fails', '0 1JJ\n2 4J', { kind: 'check', line: 1 }],
    ['a difference where a line begins', '0 J1', { kind: 'form', line: 0 }],
    ['a difference behind a missing value', '0 A?J', { kind: 'form', line: 0 }],
    ['a missing value in place of a check', '0 1J\n1 ?', { kind: 'form', line: 1 }],
    ['nothing to repeat', '0 T', { kind: 'form', line: 0 }],
    ['a letter of no number', '0 1 2\n3 4 x5', { kind: 'character', line: 1 }],
    ['a line without an abscissa', '0 1\nabc', { kind: 'abscissa', line: 1 }],
    ['an abscissa alone', '0 1\n2', { kind: 'form', line: 1 }],
    ['more than there is room for', '0 1S99999', { kind: 'many', line: 0 }],
  ])('refused: %s', (_, text, expected) => {
    expect(fault(text)).toEqual(expected);
  });
});
