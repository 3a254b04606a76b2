import type { Amount, AmountReading } from './amount-model.ts';
import type { Numeral } from './numeral.ts';
import { readNumeralAt, readWordNumeralAt } from './numeral.ts';
import { standardPhraseAt, vagueCountAt } from './phrase.ts';
import type { Quantity, QuantityReading } from './quantity.ts';
import { quantityOf, readPhAt, readQuantityAt, refusal } from './quantity.ts';
import { GAP, LETTER, SPACE, WORD_END, matchAt, sticky } from './text.ts';
import { DROP_mL, readUnitAt } from './unit.ts';

/** What the words before an amount say of it. */
export interface Flags {
  approximate?: true;
  further?: true;
  upTo?: true;
  atLeast?: true;
}

const TIMES = sticky(`${GAP}[×xX*·]${GAP}`);
const PORTION = '(?:portions?|aliquots?|lots?)';
const PORTIONS = sticky(`(?:${GAP}|-)${PORTION}${WORD_END}(?:${GAP}each${WORD_END})?`, 'i');
const PORTIONS_OF = sticky(`${GAP}${PORTION}${SPACE}of${SPACE}`, 'i');
const EACH = sticky(`(?:${GAP}each${WORD_END})?`, 'i');
const BETWEEN = sticky(GAP);
const ABOUT = sticky(`(?:(?:about|approximately)${SPACE}|ca\\.?${SPACE}|[~≈]${GAP})?`, 'i');
const TIMES_AFTER = sticky(`${GAP}[×xX*]${GAP}([1-9][0-9]?)(?![0-9]|[.,][0-9]|[${LETTER}%°])`);
const MOST_REPEATS = 100;

/**
 * The amount at `at`, after its prefixes: counted, plain, pH, or a phrase with a number. `start`
 * is where the whole amount begins, prefixes included.
 */
export function readFormAt(text: string, start: number, at: number, flags: Flags): AmountReading {
  const counted = countedAt(text, start, at, flags);
  if (counted !== undefined) return counted;
  const acid = readPhAt(text, at);
  const plain = acid.kind === 'none' ? plainAt(text, at, flags) : acid;
  if (plain.kind === 'refused') return { ...plain, start };
  if (plain.kind === 'none') return phraseAt(text, start, at, flags);
  const after = matchAt(TIMES_AFTER, text, plain.end);
  // "5 cm × 2 cm" is an area, not a repeat.
  if (after !== null && readUnitAt(text, plain.end + after[0].length) === undefined)
    return repeated(
      text,
      start,
      plain.end + after[0].length,
      plain.quantity,
      Number(after[1]),
      flags,
    );
  const portion = flags.further === true ? matchAt(PORTIONS, text, plain.end) : null;
  return make(text, start, plain.end + (portion?.[0].length ?? 0), plain.quantity, flags);
}

const ARTICLE = sticky(`an?${SPACE}`, 'i');
const HALF = sticky(`half${SPACE}an?${SPACE}`, 'i');
const QUARTERS = sticky(`(?:a|(three))${SPACE}quarters?${SPACE}of${SPACE}an${SPACE}`, 'i');
const AND_A_HALF = sticky(`${SPACE}and${SPACE}a${SPACE}half${WORD_END}`, 'i');
const FULL_WORD = /^\p{L}{4,}\.?$/u;

/** A number and a unit, or "half an hour", "an hour", "a 5 mL portion", "(another) hour". */
function plainAt(text: string, at: number, flags: Flags): QuantityReading {
  const direct = readQuantityAt(text, at);
  if (direct.kind !== 'none') return direct;
  const half = matchAt(HALF, text, at);
  if (half !== null) return implied(text, at + half[0].length, '0.5');
  const quarters = matchAt(QUARTERS, text, at);
  if (quarters !== null)
    return implied(text, at + quarters[0].length, quarters[1] === undefined ? '0.25' : '0.75');
  const article = matchAt(ARTICLE, text, at);
  if (article === null) return flags.further === true ? implied(text, at, '1') : { kind: 'none' };
  const after = at + article[0].length;
  const inside = readQuantityAt(text, after);
  if (inside.kind !== 'quantity') return implied(text, after, '1');
  const portion = matchAt(PORTIONS, text, inside.end);
  return portion === null ? { kind: 'none' } : { ...inside, end: inside.end + portion[0].length };
}

/** A unit whose number is said by the words before it: "an hour", "half an hour". */
function implied(text: string, at: number, mantissa: string): QuantityReading {
  const found = readUnitAt(text, at);
  if (found === undefined || found.start !== at) return { kind: 'none' };
  // "a second" counts and "a d" is a slip; only a unit written out can do without a number.
  const written = text.slice(found.start, found.end);
  if (mantissa === '1' && (!FULL_WORD.test(written) || /^sec/i.test(written)))
    return { kind: 'none' };
  const also = mantissa === '1' ? matchAt(AND_A_HALF, text, found.end) : null;
  const numeral = impliedNumeral(also === null ? mantissa : '1.5');
  const end = found.end + (also?.[0].length ?? 0);
  return { kind: 'quantity', quantity: quantityOf(numeral, found.unit), end };
}

function impliedNumeral(mantissa: string): Omit<Numeral, 'end'> {
  const digits = mantissa.replace(/^0\./, '').replace('.', '').length;
  return { mantissa, exponent: 0, negative: false, digits, whole: !mantissa.includes('.') };
}

/** "2 × 5 mL", "two 5 mL portions", "3 portions of 10 mL"; undefined where nothing is counted. */
function countedAt(
  text: string,
  start: number,
  at: number,
  flags: Flags,
): AmountReading | undefined {
  const count = readNumeralAt(text, at) ?? readWordNumeralAt(text, at);
  if (count === undefined || count.negative) return undefined;
  const times = matchAt(TIMES, text, count.end) ?? matchAt(PORTIONS_OF, text, count.end);
  if (times !== null) return timesAt(text, start, count, count.end + times[0].length, flags);
  const gap = matchAt(BETWEEN, text, count.end)![0].length;
  if (!count.whole || count.trouble !== undefined || gap === 0) return undefined;
  const inner = readQuantityAt(text, count.end + gap);
  const portions = inner.kind === 'quantity' ? matchAt(PORTIONS, text, inner.end) : null;
  if (inner.kind === 'quantity' && portions !== null) {
    const end = inner.end + portions[0].length;
    return repeated(text, start, end, inner.quantity, Number(count.mantissa), flags);
  }
  return inner.kind === 'none' ? undefined : groupedByBlank(text, at, inner.end);
}

/** The quantity after "2 ×" or "2 portions of", at `at`. */
function timesAt(
  text: string,
  start: number,
  count: Numeral,
  at: number,
  flags: Flags,
): AmountReading | undefined {
  const about = matchAt(ABOUT, text, at)?.[0].length ?? 0;
  const inner = readQuantityAt(text, at + about);
  if (inner.kind === 'none') return undefined;
  if (inner.kind === 'refused') return { ...inner, start };
  const portions = inner.end + (matchAt(PORTIONS, text, inner.end)?.[0].length ?? 0);
  const end = portions + (matchAt(EACH, text, portions)?.[0].length ?? 0);
  if (!count.whole || count.trouble !== undefined)
    return refusal('a repeat count is a whole number', 'write, for example, 2 × 5 mL', start, end);
  const told: Flags = about > 0 ? { ...flags, approximate: true } : flags;
  return repeated(text, start, end, inner.quantity, Number(count.mantissa), told);
}

const BLANK_GROUPS = sticky('[1-9][0-9]{0,2}(?: [0-9]{3}){1,4}(?![0-9])');

/** "1 000 mL" with a plain blank: one number, or "flask 1" and an amount? */
function groupedByBlank(text: string, at: number, end: number): AmountReading | undefined {
  const groups = matchAt(BLANK_GROUPS, text, at);
  if (groups === null) return undefined;
  return refusal(
    `${groups[0]} can be one number or two`,
    `write ${groups[0].replaceAll(' ', '')} without a blank; if the first figure belongs to a name, put a comma after it`,
    at,
    end,
  );
}

function repeated(
  text: string,
  start: number,
  end: number,
  quantity: Quantity,
  repeat: number,
  flags: Flags,
): AmountReading {
  if (repeat >= 1 && repeat <= MOST_REPEATS)
    return make(text, start, end, { ...quantity, repeat }, flags);
  const hint = `write a count from 1 to ${MOST_REPEATS}`;
  return refusal('the repeat count is out of reach', hint, start, end);
}

function phraseAt(text: string, start: number, at: number, flags: Flags): AmountReading {
  const standard = standardPhraseAt(text, at);
  if (standard !== undefined) {
    const { kind, unit, value, digits, assumed } = standard.phrase;
    return make(text, start, standard.end, { kind, unit, value, digits, assumed }, flags);
  }
  const vague = vagueCountAt(text, at);
  const found = vague === undefined ? undefined : readUnitAt(text, vague.end);
  if (vague === undefined || found === undefined) return { kind: 'none' };
  const { kind, value, digits, unit } = quantityOf(impliedNumeral(String(vague.count)), found.unit);
  const each = kind === 'drops' ? `, ${DROP_mL} mL each` : '';
  const assumed = `${vague.word} taken as ${vague.count}${each} (common practice)`;
  const made = { kind, value, digits, unit: `${vague.word} ${unit}`, assumed };
  return make(text, start, found.end, made, { ...flags, approximate: true });
}

type Made = Quantity & { readonly repeat?: number; readonly assumed?: string };

function make(text: string, start: number, end: number, made: Made, flags: Flags): AmountReading {
  const { kind, value, high, repeat, digits, unit } = made;
  const assumed =
    kind === 'drops' && made.assumed === undefined
      ? `${Number((value / DROP_mL).toPrecision(12))} drops at ${DROP_mL} mL each (common practice)`
      : made.assumed;
  const amount: Amount = {
    kind,
    value,
    ...(high === undefined ? {} : { high }),
    ...(repeat === undefined ? {} : { repeat }),
    ...flags,
    digits,
    unit,
    text: text.slice(start, end),
    ...(assumed === undefined ? {} : { assumed }),
  };
  return { kind: 'amount', amount, end };
}
