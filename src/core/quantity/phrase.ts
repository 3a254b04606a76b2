import type { AmountKind, Unquantified } from './amount-model.ts';
import { readNumeralAt, readWordNumeralAt } from './numeral.ts';
import { GAP, LETTER, SPACE, WORD_END, afterAbbreviationStop, matchAt, sticky } from './text.ts';

/** A phrase that stands for an amount, and what it is taken to be. */
export interface StandardPhrase {
  readonly kind: AmountKind;
  readonly unit: string;
  readonly value: number;
  readonly digits: number;
  readonly assumed: string;
  readonly pattern: string;
}

/** Phrases with a customary number. */
export const STANDARD_PHRASES: readonly StandardPhrase[] = [
  {
    kind: 'time',
    unit: 'overnight',
    value: 960,
    digits: 2,
    assumed: 'overnight taken as 16 h (common practice)',
    pattern: 'over-?night',
  },
  {
    kind: 'temperature',
    unit: 'room temperature',
    value: 20,
    digits: 2,
    assumed: 'room temperature taken as 20 °C (common practice)',
    pattern: `(?:(?:room|ambient|laboratory)${SPACE}temp(?:erature)?|r\\.${GAP}?t|rt)`,
  },
];

/** How many "a few" are taken to be: common practice. */
export const VAGUE_COUNTS: Readonly<Record<string, number>> = { couple: 2, few: 3, several: 5 };

const STANDARD = STANDARD_PHRASES.map((phrase) => ({
  phrase,
  expression: sticky(phrase.pattern + WORD_END, 'i'),
}));

export function standardPhraseAt(
  text: string,
  at: number,
): { readonly phrase: StandardPhrase; readonly end: number } | undefined {
  for (const { phrase, expression } of STANDARD) {
    const found = matchAt(expression, text, at);
    if (found !== null) return { phrase, end: afterAbbreviationStop(text, at + found[0].length) };
  }
  return undefined;
}

const VAGUE = sticky(`(?:(?:a${SPACE})?(few|couple)(?:${SPACE}of)?|(several))(?=${SPACE})`, 'i');

/** "a few", "several", "a couple of": the customary number, before a unit that must follow. */
export function vagueCountAt(
  text: string,
  at: number,
): { readonly word: string; readonly count: number; readonly end: number } | undefined {
  const found = matchAt(VAGUE, text, at);
  if (found === null) return undefined;
  const key = (found[1] ?? found[2] ?? '').toLowerCase();
  const word = key === 'several' ? key : key === 'couple' ? 'a couple of' : 'a few';
  return { word, count: VAGUE_COUNTS[key] ?? 1, end: at + found[0].length };
}

interface Vague {
  readonly pattern: string;
  readonly expression: RegExp;
  readonly word: string;
  readonly sense: Unquantified['sense'];
  /** Mass of one, in g. */
  readonly mass_g?: number;
  readonly counted?: true;
}

function vague(
  pattern: string,
  word: string,
  sense: Unquantified['sense'] = 'some',
  mass_g?: number,
  counted?: true,
): Vague {
  return {
    pattern,
    expression: sticky(pattern + WORD_END, 'i'),
    word,
    sense,
    ...(mass_g === undefined ? {} : { mass_g }),
    ...(counted === undefined ? {} : { counted }),
  };
}

const CONSTANT = `(?:a${SPACE})?constant${SPACE}(?:mass|weight)`;
const SOME_OF = '(?:amount|quantity|volume)';

// Masses of a spatula and of crystals: from memory.
const VAGUE_WORDS: readonly Vague[] = [
  vague(`(?:an?${SPACE})?(?:(?:large|slight|small|great)${SPACE})?excess`, 'excess', 'excess'),
  vague(`to${SPACE}${CONSTANT}`, 'to constant mass', 'constantMass'),
  vague(
    `(?:until|till)${SPACE}(?:(?:at|of)${SPACE})?${CONSTANT}`,
    'to constant mass',
    'constantMass',
  ),
  vague(`a${SPACE}little`, 'a little'),
  vague(`a${SPACE}(?:small|minimal|tiny)${SPACE}${SOME_OF}`, 'a small amount'),
  vague(`(?:a|the)${SPACE}minimum(?:${SPACE}${SOME_OF})?`, 'the minimum'),
  vague(`a${SPACE}trace`, 'a trace'),
  vague(`(?:a${SPACE})?pinch`, 'a pinch', 'some', 0.05),
  vague(`(?:a${SPACE})?few${SPACE}crystals`, 'a few crystals', 'some', 0.01),
  vague(`(?:a|one)${SPACE}(?:(?:small|single|seed)${SPACE})?crystal`, 'a crystal', 'some', 0.003),
  vague(`spatulas?(?:${GAP}|-)tip(?:ful)?s?`, 'spatula tip', 'some', 0.05, true),
  vague('spatula(?:-?fuls?|s)?', 'spatula', 'some', 0.2, true),
  vague(`(?:just${SPACE})?enough|(?:a${SPACE})?sufficient(?:${SPACE}${SOME_OF})?`, 'enough'),
  vague(`some(?=${SPACE}[${LETTER}])(?!${SPACE}(?:of|time|more)${WORD_END})`, 'some'),
];

/** One look for all of them, their ends left out: nearly everywhere there is none. */
const ANY_VAGUE_WORD = sticky(VAGUE_WORDS.map(({ pattern }) => `(?:${pattern})`).join('|'), 'i');

/** Words before an "excess" or a "some" that is not an amount: "destroy the excess hydride". */
const NOT_AFTER = /(?:^|[^\p{L}])(?:the|in|any|this)\s{1,8}$/iu;
const ARTICLE = sticky(`an?${SPACE}`, 'i');

/** The unquantified amount that begins at `at`, with what it is taken to be where that is customary. */
export function unquantifiedAt(
  text: string,
  at: number,
): { readonly amount: Unquantified; readonly end: number } | undefined {
  return countedAt(text, at) ?? untilAt(text, at) ?? wordAt(text, at, at, 1);
}

/** "2 spatulas", "a spatula-tip". */
function countedAt(text: string, at: number): ReturnType<typeof unquantifiedAt> {
  const numeral = readNumeralAt(text, at) ?? readWordNumeralAt(text, at);
  if (numeral?.negative === true || numeral?.trouble !== undefined) return undefined;
  const article = numeral === undefined ? matchAt(ARTICLE, text, at)?.[0].length : undefined;
  const end = numeral?.end ?? at + (article ?? 0);
  const gap = matchAt(BETWEEN, text, end)?.[0].length ?? 0;
  const count = numeral === undefined ? 1 : Number(`${numeral.mantissa}e${numeral.exponent}`);
  const found = wordAt(text, at, end + gap, count);
  return found !== undefined && found.counted === true ? found : undefined;
}

const BETWEEN = sticky(GAP);

function wordAt(
  text: string,
  start: number,
  at: number,
  count: number,
): { readonly amount: Unquantified; readonly end: number; readonly counted?: true } | undefined {
  if (matchAt(ANY_VAGUE_WORD, text, at) === null) return undefined;
  for (const { expression, word, sense, mass_g, counted } of VAGUE_WORDS) {
    const found = matchAt(expression, text, at);
    if (found === null) continue;
    if (/^(?:excess|some)/.test(word) && NOT_AFTER.test(text.slice(Math.max(0, start - 16), start)))
      return undefined;
    const end = at + found[0].length;
    const assumed =
      mass_g === undefined
        ? {}
        : { assumed: { kind: 'mass', value: mass_g * count, source: 'from memory' } as const };
    const amount: Unquantified = {
      kind: 'unquantified',
      word,
      text: text.slice(start, end),
      sense,
      ...assumed,
    };
    return { amount, end, ...(counted === undefined ? {} : { counted }) };
  }
  return undefined;
}

const UNTIL = sticky(`(?:until|till)(?=${SPACE}\\S)`, 'i');
/** Longer than any end point that a handout states; it also bounds the work of one call. */
const LONGEST_CLAUSE = 300;

/** "until colourless": the clause runs to a comma, semicolon, full stop or the end. */
function untilAt(text: string, at: number): ReturnType<typeof unquantifiedAt> {
  if (matchAt(UNTIL, text, at) === null) return undefined;
  const constant = wordAt(text, at, at, 1);
  if (constant !== undefined) return constant;
  let depth = 0;
  let end = at;
  for (; end < text.length; end++) {
    if (end - at > LONGEST_CLAUSE) return undefined;
    const c = text[end]!;
    if (c === '(') depth++;
    else if (c === ')' && --depth < 0) break;
    else if (c === ';' || (c === '\n' && /^\s*\n/.test(text.slice(end + 1, end + 20)))) break;
    else if (c === ',' && depth > 0) continue;
    else if ((c === ',' || c === '.') && !/[0-9]/.test(text[end + 1] ?? '')) {
      if (c === ',' || /^[\s)"'”’]*$|^[\s)"'”’]/.test(text.slice(end + 1, end + 3))) break;
    }
  }
  const clause = text.slice(at, end).trimEnd();
  const word = clause.replace(/\s+/g, ' ').replace(/^(?:until|till)/i, 'until');
  if (!/\s/.test(word)) return undefined;
  const amount: Unquantified = { kind: 'unquantified', word, text: clause, sense: 'until' };
  return { amount, end: at + clause.length };
}

/** First words of every phrase read here, for the reader's first look. */
export const PHRASE_WORDS: ReadonlySet<string> = new Set(
  'a an over overnight room ambient laboratory r rt few couple several excess large slight small great to until till the minimum pinch spatula spatulas just enough sufficient some'.split(
    ' ',
  ),
);
