/**
 * Numbers out of a long text without cutting it up: a spectrum has thousands, and reading them is
 * most of the work. A decimal of up to 15 figures is made as integer / 10^k, both exact in binary,
 * so that the result is the nearest number, as `Number` gives it.
 */
export interface NumberScan {
  readonly text: string;
  /** Whether a comma between digits is a decimal sign. */
  readonly decimalComma: boolean;
  /** Where to read next; after a number, the place behind it. */
  at: number;
  value: number;
  /** One unit of the last figure as written: 0.001 for 12.345. */
  unit: number;
}

export const numberScan = (text: string, at: number, decimalComma: boolean): NumberScan => ({
  text,
  decimalComma,
  at,
  value: Number.NaN,
  unit: 1,
});

const TENS: readonly number[] = Array.from({ length: 23 }, (_, power) => Number(`1e${power}`));
const EXACT = 2 ** 53;

const isDigit = (code: number): boolean => code >= 48 && code <= 57;

/** m · 10^power, correctly rounded; undefined where two exact factors do not suffice. */
function timesTen(mantissa: number, power: number): number | undefined {
  if (mantissa >= EXACT || power < -22 || power > 22) return undefined;
  return power < 0 ? mantissa / TENS[-power]! : mantissa * TENS[power]!;
}

/**
 * An exponent as the standard wants it: E, a sign, digits. Without the sign E may be a squeezed 5, so
 * that it counts only where the caller says that there are none (`unsigned`).
 */
function exponentAt(scan: NumberScan, end: number, unsigned: boolean): number {
  const { text, at } = scan;
  const mark = text.charCodeAt(at);
  if (at >= end || (mark !== 69 && mark !== 101)) return 0;
  let place = at + 1;
  const sign = text.charCodeAt(place);
  const hasSign = sign === 43 || sign === 45;
  if (hasSign) place++;
  if ((!hasSign && !unsigned) || place >= end || !isDigit(text.charCodeAt(place))) return 0;
  let power = 0;
  while (place < end && isDigit(text.charCodeAt(place)) && power < 10_000)
    power = 10 * power + text.charCodeAt(place++) - 48;
  scan.at = place;
  return sign === 45 ? -power : power;
}

/**
 * Reads the unsigned digits at `scan.at`, `lead` standing before them as a digit already read. False,
 * and nothing moved, where there is no digit.
 */
export function scanDigits(scan: NumberScan, end: number, lead = 0, unsigned = false): boolean {
  const { text, at: begun } = scan;
  let at = begun;
  let mantissa = lead;
  let code = at < end ? text.charCodeAt(at) : 0;
  let digits = 0;
  for (; isDigit(code); code = ++at < end ? text.charCodeAt(at) : 0, digits++)
    mantissa = 10 * mantissa + code - 48;
  let decimals = 0;
  const isMark = code === 46 || (code === 44 && scan.decimalComma);
  if (isMark && (digits > 0 || lead > 0 || isDigit(text.charCodeAt(at + 1)))) {
    code = ++at < end ? text.charCodeAt(at) : 0;
    for (; isDigit(code); code = ++at < end ? text.charCodeAt(at) : 0, decimals++)
      mantissa = 10 * mantissa + code - 48;
  }
  if (digits + decimals === 0 && lead === 0) return false;
  scan.at = at;
  const power = exponentAt(scan, end, unsigned) - decimals;
  scan.unit = power === 0 ? 1 : 10 ** power;
  scan.value = timesTen(mantissa, power) ?? slowly(scan, begun, lead);
  return true;
}

function slowly(scan: NumberScan, begun: number, lead: number): number {
  const written = scan.text.slice(begun, scan.at).replace(',', '.');
  return Number(lead === 0 ? written : `${lead}${written}`);
}

/** A number with or without a sign. False, and nothing moved, where there is none. */
export function scanNumber(scan: NumberScan, end: number, unsigned = false): boolean {
  const begun = scan.at;
  const sign = begun < end ? scan.text.charCodeAt(begun) : 0;
  if (sign === 43 || sign === 45) scan.at++;
  if (!scanDigits(scan, end, 0, unsigned)) {
    scan.at = begun;
    return false;
  }
  if (sign === 45) scan.value = -scan.value;
  return true;
}

export interface Written {
  readonly value: number;
  /** One unit of the last figure as written. */
  readonly unit: number;
}

/** The number that a header begins with, a comma taken for a decimal sign; units behind it are let be. */
export function headerNumber(value: string | undefined): Written | undefined {
  if (value === undefined) return undefined;
  const trimmed = value.trim();
  const scan = numberScan(trimmed, 0, !trimmed.includes('.'));
  return scanNumber(scan, trimmed.length, true) && Number.isFinite(scan.value)
    ? { value: scan.value, unit: scan.unit }
    : undefined;
}

/** value · factor; a factor of 10^−k divides, so that 467 · 0.00001 is the number that 0.00467 is. */
export function scaling(factor: number): (value: number) => number {
  if (factor === 1) return (value) => value;
  const power = Math.round(-Math.log10(Math.abs(factor)));
  const divisor = factor > 0 && power > 0 && power <= 22 ? TENS[power]! : 0;
  if (divisor > 0 && factor === Number(`1e-${power}`)) return (value) => value / divisor;
  return (value) => value * factor;
}
