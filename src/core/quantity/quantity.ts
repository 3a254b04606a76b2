import type { AmountKind, AmountRefusal } from './amount-model.ts';
import type { Numeral } from './numeral.ts';
import { readNumeralAt, readWordNumeralAt } from './numeral.ts';
import { GAP, SPACE, WORD_END, matchAt, sticky } from './text.ts';
import type { Unit } from './unit.ts';
import { rateAt, readUnitAt, toBase, unitMistakeAt, unitNamed } from './unit.ts';

/** A number or a range with its unit, in the base unit of its kind. */
export interface Quantity {
  readonly kind: AmountKind;
  readonly value: number;
  readonly high?: number;
  readonly digits: number;
  readonly unit: string;
}

export type QuantityReading =
  | { readonly kind: 'quantity'; readonly quantity: Quantity; readonly end: number }
  | AmountRefusal
  | { readonly kind: 'none' };

const NONE: QuantityReading = { kind: 'none' };

export function refusal(message: string, hint: string, start: number, end: number): AmountRefusal {
  return { kind: 'refused', message, hint, start, end };
}

export function quantityOf(numeral: Omit<Numeral, 'end'>, unit: Unit): Quantity {
  const value = toBase({ ...numeral, end: 0 }, unit);
  return { kind: unit.kind, value, digits: numeral.digits, unit: unit.unit };
}

const DASH = sticky(`${GAP}[-–—‐‑−]${GAP}`);
const TO = sticky(`${SPACE}(?:to|or)${SPACE}`, 'i');

/** A number (in figures or words) and its unit, or a range of two, at `at`. */
export function readQuantityAt(text: string, at: number): QuantityReading {
  const compound = compoundTimeAt(text, at);
  if (compound !== undefined) return compound;
  const first = numeralAt(text, at);
  if (first === undefined) return NONE;
  const join = matchAt(DASH, text, first.end) ?? matchAt(TO, text, first.end);
  if (join !== null) {
    const second = numeralAt(text, first.end + join[0].length);
    const found = second === undefined ? undefined : unitAfter(text, at, second);
    if (found?.kind === 'refused') return found;
    if (second !== undefined && found !== undefined)
      return range(at, first, found.unit, second, found.unit, found.end);
  }
  const found = unitAfter(text, at, first);
  if (found === undefined) return NONE;
  if (found.kind === 'refused') return found;
  return secondQuantity(text, at, first, found.unit, found.end) ?? single(at, first, found);
}

function numeralAt(
  text: string,
  at: number,
): (Numeral & { readonly inWords: boolean }) | undefined {
  const figures = readNumeralAt(text, at);
  if (figures !== undefined) return { ...figures, inWords: false };
  const words = readWordNumeralAt(text, at);
  return words === undefined ? undefined : { ...words, inWords: true };
}

type UnitFound = { readonly kind: 'unit'; readonly unit: Unit; readonly end: number };

function unitAfter(
  text: string,
  start: number,
  numeral: Numeral & { readonly inWords: boolean },
): UnitFound | AmountRefusal | undefined {
  const rate = rateAt(text, numeral.end);
  if (rate !== undefined)
    return refusal('a rate is no amount', 'say over how long: “10 mL over 5 min”', start, rate);
  const found = readUnitAt(text, numeral.end);
  if (found !== undefined) return { kind: 'unit', unit: found.unit, end: found.end };
  const mistake = numeral.inWords ? undefined : unitMistakeAt(text, numeral.end);
  return mistake === undefined
    ? undefined
    : refusal(mistake.message, mistake.hint, start, mistake.end);
}

function single(start: number, numeral: Numeral, found: UnitFound): QuantityReading {
  if (numeral.trouble !== undefined)
    return refusal(numeral.trouble.message, numeral.trouble.hint, start, found.end);
  const quantity = quantityOf(numeral, found.unit);
  return impossible(quantity, start, found.end) ?? { kind: 'quantity', quantity, end: found.end };
}

/**
 * "10 mL–15 mL", and for times also "30 s to 1 min". Elsewhere "to" between two full amounts is
 * left alone: "from 20 °C to 60 °C", "dilute 5 mL to 50 mL" are no ranges.
 */
function secondQuantity(
  text: string,
  start: number,
  first: Numeral,
  firstUnit: Unit,
  end: number,
): QuantityReading | undefined {
  const join =
    matchAt(DASH, text, end) ?? (firstUnit.kind === 'time' ? matchAt(TO, text, end) : null);
  if (join === null) return undefined;
  const second = numeralAt(text, end + join[0].length);
  if (second === undefined) return undefined;
  const found = readUnitAt(text, second.end);
  if (found === undefined || found.unit.kind !== firstUnit.kind) return undefined;
  return range(start, first, firstUnit, second, found.unit, found.end);
}

function range(
  start: number,
  first: Numeral,
  firstUnit: Unit,
  second: Numeral,
  secondUnit: Unit,
  end: number,
): QuantityReading {
  const trouble = first.trouble ?? second.trouble;
  if (trouble !== undefined) return refusal(trouble.message, trouble.hint, start, end);
  const low = quantityOf(first, firstUnit);
  const high = quantityOf(second, secondUnit).value;
  if (high < low.value)
    return refusal(
      'the range falls',
      'write the smaller number first; for a power of ten write 10⁻³ or 10^-3',
      start,
      end,
    );
  const quantity: Quantity = high === low.value ? low : { ...low, high };
  return impossible(quantity, start, end) ?? { kind: 'quantity', quantity, end };
}

const MAY_BE_NEGATIVE: ReadonlySet<AmountKind> = new Set(['temperature', 'pH']);
const FRACTIONS: ReadonlySet<AmountKind> = new Set(['massPercent', 'volumePercent']);
const ABSOLUTE_ZERO_C = -273.15;

function impossible(quantity: Quantity, start: number, end: number): AmountRefusal | undefined {
  const { kind, value } = quantity;
  const most = quantity.high ?? value;
  if (value < 0 && !MAY_BE_NEGATIVE.has(kind))
    return refusal('the amount is negative', 'leave the minus sign out', start, end);
  if (kind === 'temperature' && value < ABSOLUTE_ZERO_C)
    return refusal('the temperature lies below absolute zero', 'check the figure', start, end);
  if (FRACTIONS.has(kind) && most > 100)
    return refusal('a part is more than 100 % of the whole', 'check the figure', start, end);
  if (kind === 'pH' && (value < -2 || most > 16))
    return refusal('no aqueous solution has this pH', 'check the figure', start, end);
  return undefined;
}

const COMPOUND = sticky(
  `([0-9]{1,3})${GAP}(d|days?|h|hrs?|hours?|min|mins|minutes?)\\.?${GAP}(?:and${SPACE})?([0-9]{1,2})${GAP}(hrs?|hours?|h|mins?|minutes?|s|secs?|seconds?)${WORD_END}(?!/)`,
);
const COMPACT = sticky(`([0-9]{1,2})(h)([0-5][0-9])()${WORD_END}(?![.,]?[0-9])`);
const BELOW: Readonly<Record<string, { readonly unit: string; readonly count: number }>> = {
  d: { unit: 'h', count: 24 },
  h: { unit: 'min', count: 60 },
  m: { unit: 's', count: 60 },
};

/** "1 h 30 min", "2 min 30 s", "1h30": kept in the smaller unit, so 90 min and 150 s. */
function compoundTimeAt(text: string, at: number): QuantityReading | undefined {
  const found = matchAt(COMPOUND, text, at) ?? matchAt(COMPACT, text, at);
  if (found === null) return undefined;
  const below = BELOW[found[2]![0]!]!;
  const smaller = found[4] === '' ? below.unit : found[4]!;
  if (smaller[0] !== below.unit[0] || Number(found[3]) >= below.count) return undefined;
  const count = Number(found[1]) * below.count + Number(found[3]);
  const mantissa = String(count);
  const numeral = { mantissa, exponent: 0, negative: false, digits: mantissa.length, whole: true };
  const quantity = quantityOf(numeral, unitNamed(below.unit)!);
  return { kind: 'quantity', quantity, end: at + found[0].length };
}

const PH = sticky(`(?:an?${SPACE})?(?:pH|PH|ph)(?:${SPACE}of)?${GAP}(?:=${GAP})?(?=[-−–0-9.])`);
const PH_UNIT: Unit = { kind: 'pH', unit: 'pH', power: 0 };

/** "pH 7", "a pH of 1–2", with `at` before the "pH". */
export function readPhAt(text: string, at: number): QuantityReading {
  const opening = matchAt(PH, text, at);
  if (opening === null) return NONE;
  const first = readNumeralAt(text, at + opening[0].length);
  if (first === undefined) return NONE;
  const join = matchAt(DASH, text, first.end) ?? matchAt(TO, text, first.end);
  const second = join === null ? undefined : readNumeralAt(text, first.end + join[0].length);
  // "pH 7 to 10 mL" and "pH 2 - 5 mL": there the second number has a unit of its own.
  const ownUnit = second !== undefined && readUnitAt(text, second.end) !== undefined;
  if (second !== undefined && !ownUnit)
    return range(at, first, PH_UNIT, second, PH_UNIT, second.end);
  return single(at, first, { kind: 'unit', unit: PH_UNIT, end: first.end });
}
