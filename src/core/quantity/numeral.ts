import { BLANK, SPACE, WORD_END, matchAt, sticky } from './text.ts';

/** A number as written, before its unit is known. */
export interface Numeral {
  /** Plain digits with a point, without sign: "12.50". */
  readonly mantissa: string;
  /** Power of ten that multiplies the mantissa. */
  readonly exponent: number;
  readonly negative: boolean;
  readonly digits: number;
  readonly whole: boolean;
  readonly end: number;
  /** Set where the number cannot be taken as written; told only if a unit follows. */
  readonly trouble?: { readonly message: string; readonly hint: string };
}

/** More figures than any instrument of a laboratory gives; doubles keep these exactly. */
const MOST_DIGITS = 12;
const LARGEST = 1e12;
const SMALLEST = 1e-15;

const FIXED_BLANK = '[\\u00a0\\u2009\\u202f]';
const CLUSTER = sticky(
  `(?:(?:[0-9]{1,3}(?:${FIXED_BLANK}[0-9]{3})+(?![0-9])|[0-9]+)(?:[.,][0-9]+)*|\\.[0-9]+)`,
);
const POWER = sticky(
  `${BLANK}{0,4}[×xX*·]${BLANK}{0,4}10(?:\\^${BLANK}?([-−–+]?[0-9]{1,9})|([⁻⁺]?[⁰¹²³⁴⁵⁶⁷⁸⁹]{1,9}))`,
);
const EXPONENT = sticky('[eE]([-−+]?[0-9]{1,9})(?![0-9])');
const SLASH_FRACTION = sticky('([1-9])/(2|3|4|5|8|10)(?![0-9/.,])');
const MIXED_FRACTION = sticky(`[0-9]{1,2}${BLANK}([1-9])/(2|3|4|5|8|10)(?![0-9/.,])`);
const VULGAR = sticky(`([0-9]{0,2})${BLANK}?([½¼¾⅓⅔⅛⅜⅝⅞⅕⅖⅗⅘])`);
const VULGAR_VALUE: Readonly<Record<string, number>> = {
  '½': 1 / 2,
  '¼': 1 / 4,
  '¾': 3 / 4,
  '⅓': 1 / 3,
  '⅔': 2 / 3,
  '⅛': 1 / 8,
  '⅜': 3 / 8,
  '⅝': 5 / 8,
  '⅞': 7 / 8,
  '⅕': 1 / 5,
  '⅖': 2 / 5,
  '⅗': 3 / 5,
  '⅘': 4 / 5,
};
const SUPERSCRIPT = '⁰¹²³⁴⁵⁶⁷⁸⁹';

/** The numeral in figures that begins at `at`, or undefined. */
export function readNumeralAt(text: string, at: number): Numeral | undefined {
  let start = at;
  let negative = false;
  const sign = text[at] ?? '';
  if (sign !== '' && '-−–+'.includes(sign)) {
    negative = sign !== '+';
    start = at + 1;
  }
  const fraction = fractionAt(text, start);
  if (fraction !== undefined) return { ...fraction, negative };
  const cluster = matchAt(CLUSTER, text, start);
  if (cluster === null) return undefined;
  const plain = plainNumber(cluster[0]);
  let end = start + cluster[0].length;
  let exponent = 0;
  const raised = matchAt(EXPONENT, text, end) ?? matchAt(POWER, text, end);
  if (raised !== null) {
    exponent = wholeNumber(raised[1] ?? raised[2] ?? '0');
    end += raised[0].length;
  }
  return finish(plain.mantissa, exponent, negative, end, plain.trouble);
}

function finish(
  mantissa: string,
  exponent: number,
  negative: boolean,
  end: number,
  found?: Numeral['trouble'],
): Numeral {
  const digits = significantDigits(mantissa);
  const size = Number(`${mantissa}e${exponent}`);
  const nonzero = /[1-9]/.test(mantissa);
  const trouble = found ?? sizeTrouble(size, nonzero, digits);
  const whole = exponent === 0 && !mantissa.includes('.');
  return {
    mantissa,
    exponent,
    negative,
    digits,
    whole,
    end,
    ...(trouble === undefined ? {} : { trouble }),
  };
}

function sizeTrouble(size: number, nonzero: boolean, digits: number): Numeral['trouble'] {
  if (digits > MOST_DIGITS)
    return {
      message: `the number has ${digits} significant figures, more than any instrument gives`,
      hint: `write at most ${MOST_DIGITS} figures`,
    };
  if (!Number.isFinite(size) || size > LARGEST)
    return { message: 'the number is too large for a laboratory', hint: 'check the power of ten' };
  if (nonzero && size < SMALLEST)
    return { message: 'the number is too small for a laboratory', hint: 'check the power of ten' };
  return undefined;
}

/** Settles what points, commas and blanks inside a cluster of figures mean. */
function plainNumber(written: string): { mantissa: string; trouble?: Numeral['trouble'] } {
  const parts = written.replace(/[\u00a0\u2009\u202f]/g, '').split(/([.,])/);
  const whole = parts[0] === '' ? '0' : (parts[0] ?? '0');
  const marks = parts.filter((_, i) => i % 2 === 1);
  const groups = parts.filter((_, i) => i % 2 === 0).slice(1);
  const last = groups.at(-1) ?? '';
  if (/^0[0-9]/.test(whole))
    return {
      mantissa: [whole, last].join('.').replace(/\.$/, ''),
      trouble: {
        message: `${written} begins with a zero that does not belong there`,
        hint: `write ${whole.replace(/^0+(?=[0-9])/, '')} or ${whole[0]}.${whole.slice(1)}`,
      },
    };
  if (marks.length === 0) return { mantissa: whole };
  const couldGroup = whole !== '0' && whole.length <= 3;
  if (marks.length === 1) {
    const mantissa = `${whole}.${last}`;
    if (marks[0] === '.' || last.length !== 3 || !couldGroup) return { mantissa };
    return {
      mantissa,
      trouble: {
        message: `${written} can mean ${whole}${last} or ${whole}.${last}`,
        hint: `write ${whole}${last} or ${whole}.${last}`,
      },
    };
  }
  return groupedNumber(written, whole, marks, groups, couldGroup);
}

function groupedNumber(
  written: string,
  whole: string,
  marks: readonly string[],
  groups: readonly string[],
  couldGroup: boolean,
): { mantissa: string; trouble?: Numeral['trouble'] } {
  const grouping = marks[0]!;
  const decimal = marks.at(-1) !== grouping;
  const thousands = decimal ? groups.slice(0, -1) : groups;
  const sameMark = marks.slice(0, decimal ? -1 : undefined).every((mark) => mark === grouping);
  // Points alone ("1.250.000") are left out: a slipped point is as likely as grouping.
  const clear = couldGroup && sameMark && (decimal || grouping === ',');
  if (clear && thousands.every((group) => group.length === 3)) {
    const joined = whole + thousands.join('');
    return { mantissa: decimal ? `${joined}.${groups.at(-1)}` : joined };
  }
  return {
    mantissa: whole,
    trouble: {
      message: `${written} is not one number`,
      hint: 'write one decimal point or comma, and no sign between thousands',
    },
  };
}

function significantDigits(mantissa: string): number {
  const figures = mantissa.replace('.', '').replace(/^0+/, '');
  if (figures !== '') return figures.length;
  // For a zero only its decimals tell how finely it was read.
  return (mantissa.split('.')[1] ?? '').length + 1;
}

function wholeNumber(written: string): number {
  const plain = written
    .replace(/[⁰¹²³⁴⁵⁶⁷⁸⁹]/g, (c) => String(SUPERSCRIPT.indexOf(c)))
    .replace(/[−–⁻]/, '-')
    .replace(/[⁺+]/, '');
  return Number(plain);
}

/** Most numbers are none, and are not tried any further. */
const FRACTION_MARK = /[/½¼¾⅓⅔⅛⅜⅝⅞⅕⅖⅗⅘]/;
/** Up to the mark: "12 1/". */
const LONGEST_FRACTION = 6;

/** "½", "1½", "1 ½", "1/2", "1 1/2". Thirds are kept to four figures. */
function fractionAt(text: string, at: number): Numeral | undefined {
  if (!FRACTION_MARK.test(text.slice(at, at + LONGEST_FRACTION))) return undefined;
  const vulgar = matchAt(VULGAR, text, at);
  if (vulgar !== null)
    return fraction(Number(vulgar[1]), VULGAR_VALUE[vulgar[2]!]!, at + vulgar[0].length);
  const slash = matchAt(SLASH_FRACTION, text, at);
  if (slash !== null) return fraction(0, Number(slash[1]) / Number(slash[2]), at + slash[0].length);
  const mixed = matchAt(MIXED_FRACTION, text, at);
  if (mixed === null) return undefined;
  return fraction(
    Number.parseInt(mixed[0], 10),
    Number(mixed[1]) / Number(mixed[2]),
    at + mixed[0].length,
  );
}

function fraction(whole: number, part: number, end: number): Numeral | undefined {
  if (part >= 1) return undefined;
  return finish(String(Number((whole + part).toFixed(4))), 0, false, end);
}

const UNITS_IN_WORDS =
  'one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen twenty'.split(
    ' ',
  );
const TENS_IN_WORDS = [
  'twenty',
  'thirty',
  'forty',
  'fifty',
  'sixty',
  'seventy',
  'eighty',
  'ninety',
];
const WORD_NUMBER = sticky(
  `(${[...TENS_IN_WORDS, ...UNITS_IN_WORDS.toReversed()].join('|')})(?:-(one|two|three|four|five|six|seven|eight|nine))?(${SPACE}and${SPACE}a${SPACE}half)?${WORD_END}`,
  'i',
);

/** Words that can begin a number in words, for the reader's first look. */
export const NUMBER_WORDS: ReadonlySet<string> = new Set([...UNITS_IN_WORDS, ...TENS_IN_WORDS]);

/** "two", "forty-five", "one and a half", or undefined. */
export function readWordNumeralAt(text: string, at: number): Numeral | undefined {
  const found = matchAt(WORD_NUMBER, text, at);
  if (found === null) return undefined;
  const word = found[1]!.toLowerCase();
  const tens = TENS_IN_WORDS.indexOf(word);
  if (tens < 0 && found[2] !== undefined) return undefined;
  const first = tens >= 0 ? (tens + 2) * 10 : UNITS_IN_WORDS.indexOf(word) + 1;
  const second = UNITS_IN_WORDS.indexOf((found[2] ?? '').toLowerCase()) + 1;
  const half = found[3] === undefined ? '' : '.5';
  return finish(`${first + second}${half}`, 0, false, at + found[0].length);
}
