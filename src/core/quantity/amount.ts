import { readFormAt } from './amount-form.ts';
import type { Flags } from './amount-form.ts';
import type { Amount, AmountReading, AmountRefusal, AnyAmount } from './amount-model.ts';
import { NUMBER_WORDS } from './numeral.ts';
import { PHRASE_WORDS, unquantifiedAt } from './phrase.ts';
import { refusal } from './quantity.ts';
import { GAP, SPACE, matchAt, sticky } from './text.ts';
import { readUnitAt } from './unit.ts';

export type {
  Amount,
  AmountKind,
  AmountReading,
  AmountRefusal,
  AnyAmount,
  Unquantified,
} from './amount-model.ts';
export { BASE_UNIT } from './amount-model.ts';

const NONE: AmountReading = { kind: 'none' };

const PREFIXES: readonly { readonly flag: keyof Flags; readonly expression: RegExp }[] = [
  {
    flag: 'approximate',
    expression: sticky(
      `(?:(?:about|approximately|around|roughly|circa)${SPACE}|approx(?:\\.|${SPACE})${GAP}|ca(?:\\.|${SPACE})${GAP}|c\\.${GAP}|[~≈∼≃]${GAP})`,
      'i',
    ),
  },
  {
    flag: 'further',
    expression: sticky(
      `(?:another|an?${SPACE}(?:further|additional|second|third)|further|additional)${SPACE}`,
      'i',
    ),
  },
  {
    flag: 'upTo',
    expression: sticky(
      `(?:(?:up${SPACE}to|below|under|at${SPACE}most|(?:not|no)${SPACE}more${SPACE}than|less${SPACE}than|a${SPACE}maximum${SPACE}of)${SPACE}|[<≤]${GAP})`,
      'i',
    ),
  },
  {
    flag: 'atLeast',
    expression: sticky(
      `(?:(?:above|at${SPACE}least|(?:not|no)${SPACE}less${SPACE}than|more${SPACE}than|a${SPACE}minimum${SPACE}of)${SPACE}|[>≥]${GAP})`,
      'i',
    ),
  },
];
/** "make up to 100 mL", "warm up to 60 °C": there "up" belongs to the verb. */
const VERB_WITH_UP = /(?:mak|mad|warm|heat|fill|top|dilut|bring|brought)\p{L}*\s{1,8}$/iu;

const FIRST_WORDS = new Set([
  ...NUMBER_WORDS,
  ...PHRASE_WORDS,
  ...'about approx approximately around roughly circa ca c another further additional up below under at not no less more above half three ph nan infinity inf'.split(
    ' ',
  ),
]);
const WORD = sticky('[A-Za-z]{1,16}');
const FIGURE = /[0-9.½¼¾⅓⅔⅛⅜⅝⅞⅕⅖⅗⅘]/;
const OTHER_FIGURE = /[\p{Nd}∞]/u;

/** Whether an amount could begin here; decides quickly for the many words that are none. */
function mayBegin(text: string, at: number): boolean {
  const c = text[at];
  if (c === undefined || (at > 0 && /[\p{L}\p{N}]/u.test(text[at - 1]!) && /[\p{L}\p{N}]/u.test(c)))
    return false;
  if (FIGURE.test(c) || '~≈∼≃<>≤≥'.includes(c)) return true;
  if ('-−–+'.includes(c)) return FIGURE.test(text[at + 1] ?? '') || text[at + 1] === '∞';
  const word = matchAt(WORD, text, at)?.[0];
  return word === undefined ? OTHER_FIGURE.test(c) : FIRST_WORDS.has(word.toLowerCase());
}

/**
 * Reads an amount that begins at `start`: a number with a unit, or words that stand for one, with
 * "ca.", "2 ×", "a further" and the like before it. Values come in the base unit of their kind
 * (`BASE_UNIT`). 'none' where no amount begins; 'refused' where one is meant but cannot be taken,
 * with what to write. Never throws, never reads past the text; the work of
 * one call grows at most with the figures that stand there.
 */
export function readAmountAt(text: string, start: number): AmountReading {
  if (!mayBegin(text, start)) return NONE;
  const strange = strangeNumberAt(text, start);
  if (strange !== undefined) return strange;
  const flags: Flags = {};
  const bare = readFormAt(text, start, start, flags);
  if (bare.kind !== 'none') return bare;
  let at = start;
  for (let count = 0; count < 4; count++) {
    const prefix = PREFIXES.find(({ expression }) => matchAt(expression, text, at) !== null);
    if (prefix === undefined) break;
    if (prefix.flag === 'upTo' && VERB_WITH_UP.test(text.slice(Math.max(0, at - 20), at))) break;
    flags[prefix.flag] = true;
    at += matchAt(prefix.expression, text, at)![0].length;
    const found = readFormAt(text, start, at, flags);
    if (found.kind !== 'none') return found;
  }
  return unquantified(text, start);
}

/** Reads a text that is one amount and nothing else; blanks around it do not count. */
export function readAmount(text: string): AnyAmount | AmountRefusal {
  const start = text.length - text.trimStart().length;
  const stop = text.trimEnd().length;
  const reading = readAmountAt(text, start);
  if (reading.kind === 'refused') return reading;
  if (reading.kind === 'none')
    return {
      kind: 'refused',
      message: 'this is no amount',
      hint: 'write a number and a unit, such as 1.25 g or 10 mL',
      start,
      end: stop,
    };
  const rest = text.slice(reading.end, stop);
  if (rest === '' || rest === '.' || /^\s+of$/i.test(rest)) return reading.amount;
  return {
    kind: 'refused',
    message: `“${rest.trim().slice(0, 40)}” is left over after the amount`,
    hint: 'write one amount only',
    start: reading.end,
    end: stop,
  };
}

/** `repeat` × `value`, in the base unit; with 'high' the upper end of a range where there is one. */
export function total(amount: Amount, end: 'low' | 'high' = 'low'): number {
  const one = end === 'high' ? (amount.high ?? amount.value) : amount.value;
  return one * (amount.repeat ?? 1);
}

function unquantified(text: string, start: number): AmountReading {
  const found = unquantifiedAt(text, start);
  return found === undefined ? NONE : { kind: 'amount', amount: found.amount, end: found.end };
}

const NOT_FINITE = sticky(`[-−–+]?(?:NaN|Infinity|inf|∞)(?=(${GAP}))`, 'i');
const FOREIGN_FIGURES = sticky('[-−–+]?\\p{Nd}[\\p{Nd}.,．，]{0,30}');

function strangeNumberAt(text: string, start: number): AmountReading | undefined {
  const infinite = matchAt(NOT_FINITE, text, start);
  if (infinite !== null) {
    const unit = readUnitAt(text, start + infinite[0].length);
    if (unit === undefined) return NONE;
    return refusal('this is no finite number', 'write the amount in figures', start, unit.end);
  }
  if (/[0-9]/.test(text[start]!) || !OTHER_FIGURE.test(text.slice(start, start + 2)))
    return undefined;
  const foreign = matchAt(FOREIGN_FIGURES, text, start);
  if (foreign === null || /^[-−–+]?[0-9]/.test(foreign[0])) return undefined;
  const figuresEnd = start + foreign[0].length;
  const end = readUnitAt(text, figuresEnd)?.end ?? figuresEnd;
  return refusal(
    'these figures are of another script or width',
    'write the figures 0 to 9',
    start,
    end,
  );
}
