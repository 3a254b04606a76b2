import type { Amount, AmountKind, AnyAmount } from './amount-model.ts';
import { BASE_UNIT } from './amount-model.ts';
import { STANDARD_PHRASES, VAGUE_COUNTS } from './phrase.ts';
import type { Unit } from './unit.ts';
import { fromBase, unitNamed } from './unit.ts';

/** How numbers are set. The default blank is U+202F, which neither breaks nor stretches. */
export interface PrintOptions {
  readonly space?: string;
  readonly decimal?: '.' | ',';
}

export const THIN_SPACE = '\u202f';
const MINUS = '−';
/** Without a wish, figures beyond this many are not worth reading. */
const USUAL_DIGITS = 4;

/**
 * A number with this many significant figures, trailing zeros kept; without `digits`, up to four,
 * trailing zeros dropped. Plain from 0.0001 to below 1 000 000, with a power of ten outside.
 */
export function formatNumber(value: number, digits?: number, options: PrintOptions = {}): string {
  if (!Number.isFinite(value)) return Number.isNaN(value) ? '–' : value < 0 ? `${MINUS}∞` : '∞';
  const figures = Math.min(Math.max(Math.round(digits ?? USUAL_DIGITS), 1), 100);
  const plain = plainDigits(value, figures, digits === undefined);
  const size = Math.abs(Number(value.toPrecision(figures)));
  const text =
    size === 0 || (size >= 1e-4 && size < 1e6)
      ? plain
      : powerOfTen(value, figures, digits === undefined);
  return dress(text, options);
}

function plainDigits(value: number, figures: number, trim: boolean): string {
  if (value === 0) return (0).toFixed(trim ? 0 : figures - 1);
  const rounded = value.toPrecision(figures);
  if (!rounded.includes('e')) return trim ? String(Number(rounded)) : rounded;
  // Here toPrecision gave a power of ten: few figures of a large number, or a small number.
  const exponent = Number(rounded.split('e')[1]);
  const decimals = Math.min(Math.max(figures - 1 - exponent, 0), 100);
  const plain = Number(rounded).toFixed(decimals);
  return trim ? String(Number(plain)) : plain;
}

function powerOfTen(value: number, figures: number, trim: boolean): string {
  const [mantissa, exponent] = value.toExponential(figures - 1).split('e');
  const front = trim ? String(Number(mantissa)) : mantissa!;
  return `${front} × 10${superscript(Number(exponent))}`;
}

function superscript(exponent: number): string {
  return String(exponent).replace(/[-0-9]/g, (c) => '⁻⁰¹²³⁴⁵⁶⁷⁸⁹'['-0123456789'.indexOf(c)]!);
}

function dress(text: string, options: PrintOptions): string {
  const signed = text.replace(/^-/, MINUS);
  return options.decimal === ',' ? signed.replace('.', ',') : signed;
}

/** Units to choose from, largest first, each with the least value (in it) that it is used for. */
const LADDERS: Partial<Record<AmountKind, readonly (readonly [string, number])[]>> = {
  mass: [
    ['kg', 1],
    ['g', 0.1],
    ['mg', 0.1],
    ['µg', 0],
  ],
  volume: [
    ['L', 1],
    ['mL', 0.1],
    ['µL', 0],
  ],
  amount: [
    ['mol', 1],
    ['mmol', 0.1],
    ['µmol', 0],
  ],
  time: [
    ['h', 2],
    ['min', 1],
    ['s', 0],
  ],
  molarity: [
    ['mol/L', 0.001],
    ['mmol/L', 0],
  ],
};

/**
 * A value in the base unit of its kind, in the unit that reads best: mg, g or kg, µL, mL or L,
 * min or h. A zero keeps the base unit.
 */
export function formatQuantity(
  value: number,
  kind: AmountKind,
  digits?: number,
  options: PrintOptions = {},
): string {
  const unit = readableUnit(value, kind);
  const own = unit === undefined ? value : fromBase(value, unit);
  return withUnit(formatNumber(own, digits, options), unit?.unit ?? BASE_UNIT[kind], options);
}

function readableUnit(value: number, kind: AmountKind): Unit | undefined {
  const base = unitNamed(kind === 'drops' ? 'mL' : BASE_UNIT[kind]);
  const ladder = LADDERS[kind];
  if (ladder === undefined || value === 0 || !Number.isFinite(value)) return base;
  // Rounded first, so that 0.9999999 L is not set as 1000 mL.
  const size = Math.abs(Number(value.toPrecision(USUAL_DIGITS)));
  for (const [name, least] of ladder) {
    const unit = unitNamed(name);
    if (unit !== undefined && fromBase(size, unit) >= least) return unit;
  }
  return base;
}

function withUnit(number: string, unit: string, options: PrintOptions): string {
  const space = options.space ?? THIN_SPACE;
  return unit === 'pH' ? `pH${space}${number}` : `${number}${space}${unit}`;
}

/**
 * An amount in its own unit, as it would be written: read again it gives the same amount (but for
 * `text`). Unquantified amounts come back in their own words.
 */
export function formatAmount(amount: AnyAmount, options: PrintOptions = {}): string {
  if (amount.kind === 'unquantified') return amount.text;
  const phrase = phraseOf(amount);
  const vague = phrase !== undefined && !STANDARD_UNITS.has(amount.unit);
  const said = [
    ...(amount.upTo ? ['up to'] : []),
    ...(amount.atLeast ? ['at least'] : []),
    ...(amount.further ? ['a further'] : []),
    ...(amount.approximate && !vague ? ['ca.'] : []),
  ];
  if (phrase !== undefined)
    return [...said, amount.further ? phrase.replace(/^a /, '') : phrase].join(' ');
  const repeat = amount.repeat === undefined ? '' : `${amount.repeat} × `;
  return [...said, repeat + ownNumber(amount, options)].join(' ');
}

const STANDARD_UNITS = new Set(STANDARD_PHRASES.map(({ unit }) => unit));
const VAGUE_UNIT = new RegExp(`^(?:a )?(?:${Object.keys(VAGUE_COUNTS).join('|')}) `);

/** The phrase that is the amount ("overnight", "a few drops"), or undefined for a number. */
function phraseOf(amount: Amount): string | undefined {
  return STANDARD_UNITS.has(amount.unit) || VAGUE_UNIT.test(amount.unit) ? amount.unit : undefined;
}

const PH_UNIT: Unit = { kind: 'pH', unit: 'pH', power: 0 };

function ownNumber(amount: Amount, options: PrintOptions): string {
  const unit = amount.kind === 'pH' ? PH_UNIT : unitNamed(amount.unit);
  // A unit nobody knows can only come from a record made by hand; the base unit is then meant.
  const own = unit === undefined ? amount.value : fromBase(amount.value, unit);
  const name = unit?.unit ?? BASE_UNIT[amount.kind];
  const low = asWritten(own, amount.digits);
  if (amount.high === undefined) {
    const shown = name === 'drops' && low === '1' ? 'drop' : name;
    return withUnit(dress(low, options), shown, options);
  }
  const high = unit === undefined ? amount.high : fromBase(amount.high, unit);
  const upper = upperEnd(high, low);
  const join = low.startsWith('-') || upper.startsWith('-') ? ' to ' : '–';
  return withUnit(dress(low, options) + join + dress(upper, options), name, options);
}

/** With its written figures, by a power of ten where plain figures would say more than is known. */
function asWritten(own: number, digits: number): string {
  if (own === 0) return (0).toFixed(Math.min(Math.max(digits - 1, 0), 100));
  const exponent = Number(own.toExponential(digits - 1).split('e')[1]);
  const plain = digits > exponent && exponent >= -4 && exponent < 6;
  return plain ? plainDigits(own, digits, false) : powerOfTen(own, digits, false);
}

/** With at least the decimals of the lower end, and as many more as the number needs. */
function upperEnd(high: number, low: string): string {
  const shortest = String(Number(high.toPrecision(12)));
  if (low.includes('×') || shortest.includes('e')) {
    const figures = high
      .toExponential(11)
      .split('e')[0]!
      .replace(/\.?0+$/, '')
      .replace(/[-.]/g, '');
    return powerOfTen(high, figures.length, false);
  }
  const padded = Number(shortest).toFixed(Math.max(decimalsOf(low), decimalsOf(shortest)));
  return padded.replace(/\D/g, '').length > 12 ? shortest : padded;
}

function decimalsOf(text: string): number {
  return text.split('.')[1]?.length ?? 0;
}

/**
 * "78.31 ± 0.14": the value to the decimals of two significant figures of its standard (or
 * expanded) uncertainty. Without an uncertainty (0, or no number) the value stands alone.
 */
export function formatWithUncertainty(
  value: number,
  u: number,
  options: PrintOptions = {},
): string {
  const spread = Math.abs(u);
  if (!Number.isFinite(value) || !Number.isFinite(spread) || spread === 0)
    return formatNumber(value, Number.isFinite(value) ? shownDigits(value) : undefined, options);
  const size = Math.max(Math.abs(value), spread);
  if (size >= 1e-4 && size < 1e6) return bothRounded(value, spread, options);
  const exponent = Number(size.toExponential(6).split('e')[1]);
  const scale = (x: number): number => {
    const [mantissa, own] = x.toExponential().split('e');
    return Number(`${mantissa}e${Number(own) - exponent}`);
  };
  return `(${bothRounded(scale(value), scale(spread), options)}) × 10${superscript(exponent)}`;
}

function bothRounded(value: number, u: number, options: PrintOptions): string {
  const rounded = Number(u.toPrecision(2));
  const decimals = 1 - Number(rounded.toExponential().split('e')[1]);
  const shown = [value, rounded].map((x) => {
    if (decimals >= 0) return x.toFixed(Math.min(decimals, 100));
    const step = 10 ** -decimals;
    return String(Math.round(x / step) * step + 0);
  });
  return shown.map((text) => dress(text.replace(/^-(?=[0.]*$)/, ''), options)).join(' ± ');
}

/** The figures that a number has by itself, at most twelve. */
function shownDigits(value: number): number {
  const figures = value
    .toExponential(11)
    .split('e')[0]!
    .replace(/\.?0+$/, '')
    .replace(/[-.]/g, '');
  const whole = Math.floor(Math.log10(Math.abs(value) || 1)) + 1;
  return Math.max(figures.length, Math.min(whole, 6), 1);
}
