import { readAmountAt } from '../quantity/amount.ts';
import type { VesselDeclaration, VesselShape } from './step.ts';

/** Nouns that make a phrase a vessel, with the shape that they say. */
const NOUNS: readonly (readonly [RegExp, VesselShape])[] = [
  [/\b(sep(aratory|arating|arator)?|separation) funnels?$/, 'separatory funnel'],
  [/\b(addition|dropping) funnels?$/, 'addition funnel'],
  [
    /\b(b(ü|u|ue)chner|hirsch|filter|sinter(ed)?|glass|suction|vacuum) funnels?$|\b(b(ü|u|ue)chner|hirsch|sinter)$/,
    'filter',
  ],
  [/\bfilter papers?$|\bfilter$|\bfrit$|\bfilter cone$/, 'filter'],
  [/\b(filter|suction|b(ü|u|ue)chner|side-?arm) flasks?$/, 'filter flask'],
  [/\b(conical|erlenmeyer) flasks?$|\berlenmeyers?$|\bconical$/, 'conical flask'],
  [
    /\b(round-?bottom(ed)?|r\.?b\.?|pear-shaped|schlenk|three-necked|two-necked|reaction|distilling|distillation|receiving)( \w+)? flasks?$|\breceivers?$|\bpot$|\bstill ?pot$/,
    'round-bottom flask',
  ],
  [/\bbeakers?$/, 'beaker'],
  [/\b(test|boiling|reaction|centrifuge|ignition|craig) tubes?$|\btubes?$/, 'test tube'],
  [/\b(vials?|sample bottles?|ampoules?)$/, 'vial'],
  [/\b(measuring|graduated)? ?cylinders?$/, 'cylinder'],
  [
    /\b(dish(es)?|evaporating basins?|basins?|watch ?glass(es)?|crucibles?|petri dish(es)?|weighing boats?|clock glass(es)?|tiles?)$/,
    'dish',
  ],
  [/\b(traps?|cold finger|sublimator)$/, 'trap'],
  [/\b(bottles?|jars?)$/, 'bottle'],
  [/\bfunnels?$/, 'separatory funnel'],
  [/\bflasks?$/, 'round-bottom flask'],
  [
    /\b(columns?|thimble|cartridge|vessel|container|reactor|cell|bomb|autoclave|can|crock|still|mortar|tank|bucket|jug|balloon|cup|syringe)$/,
    'other',
  ],
];

export function shapeOf(phrase: string): VesselShape | undefined {
  const words = phrase.toLowerCase().replace(/,.*$/, '').trim();
  return NOUNS.find(([pattern]) => pattern.test(words))?.[1];
}

const IDLE_WORDS =
  /\b(the|a|an|your|this|that|its|same|clean|dry|dried|tared|pre-?tared|weighed|pre-?weighed|empty|oven-dried|flame-dried|small|large|second|another|new|fresh|suitable|stoppered|of|to|in|from|contents|cooled|cold|warm|hot|original|labelled|labeled)\b/g;

/** A vessel as a phrase names it: what is left of its words, its capacity, whether it is tared. */
export interface VesselPhrase {
  readonly words: readonly string[];
  readonly capacity_mL?: number;
  readonly shape?: VesselShape;
  readonly tared: boolean;
  readonly text: string;
}

/** "a 250-mL, two-necked, round-bottomed flask": commas between its adjectives. */
export function withoutCommas(text: string): string {
  return text.replace(
    /(-necked|-dried|-bottom(?:ed)?|[- ]m?l|\bdry|\bclean|\btared),\s+(?=[a-z\d-]+(?:,?\s+[a-z\d-]+){0,5}\s*flask)/gi,
    '$1 ',
  );
}

const PHRASES_REMEMBERED = 2000;
const phrasesBefore = new Map<string, VesselPhrase>();

/** Every keystroke asks again of every vessel, so what was read before is kept. */
export function readVesselPhrase(text: string): VesselPhrase {
  const before = phrasesBefore.get(text);
  if (before) return before;
  const phrase = readPhraseAfresh(text);
  if (phrasesBefore.size >= PHRASES_REMEMBERED) phrasesBefore.clear();
  phrasesBefore.set(text, phrase);
  return phrase;
}

function readPhraseAfresh(text: string): VesselPhrase {
  // "the walls of the flask" are the flask
  let rest = withoutCommas(text.trim().toLowerCase()).replace(
    /^(?:the )?(?:inside |inner )?(?:walls?|sides?|inside|bottom|neck|mouth) of (?=the\b|your\b|an?\b)/,
    '',
  );
  const tared = /\b(pre-?)?(tared|weighed)\b/.test(rest);
  let capacity_mL: number | undefined;
  const number = /\d/.exec(rest);
  if (number) {
    const reading = readCapacity(rest, number.index);
    if (reading) {
      capacity_mL = reading.value;
      rest = `${rest.slice(0, number.index)} ${rest.slice(reading.end).replace(/^-/, '')}`;
    }
  }
  const shape = shapeOf(rest);
  const words = rest
    .replace(IDLE_WORDS, ' ')
    .replace(/[^\p{L}\p{N}-]+/gu, ' ')
    .trim()
    .split(/\s+/)
    .filter((word) => word !== '');
  return {
    words,
    ...(capacity_mL !== undefined && { capacity_mL }),
    ...(shape !== undefined && { shape }),
    tared,
    text: text.trim(),
  };
}

function readCapacity(text: string, at: number): { value: number; end: number } | undefined {
  // "100-mL flask" is the US way of writing it
  const plain = text.replace(/(\d)-(?=[mlµc])/g, '$1 ');
  const reading = readAmountAt(plain, at);
  if (reading.kind !== 'amount' || reading.amount.kind !== 'volume') return undefined;
  return { value: reading.amount.value, end: reading.end };
}

function bareName(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/^(?:the|an?)\s+/, '')
    .replace(/[,:;]$/, '');
}

/** Other words for a shape. */
const ALSO: Readonly<Partial<Record<VesselShape, readonly string[]>>> = {
  'round-bottom flask': ['round-bottomed', 'round', 'bottom', 'rb', 'reaction', 'rbf'],
  'conical flask': ['erlenmeyer', 'conical'],
  'separatory funnel': ['separating', 'sep', 'separatory', 'separation'],
  'addition funnel': ['dropping', 'addition'],
  filter: ['funnel', 'büchner', 'buchner', 'hirsch', 'paper', 'vacuum', 'suction'],
  'filter flask': ['büchner', 'buchner', 'suction', 'side-arm'],
  dish: ['basin', 'glass', 'watch', 'evaporating', 'crucible'],
  'test tube': ['tube'],
};

const singular = (word: string) => word.replace(/s$/, '');

interface Called {
  readonly id: string;
  readonly name: string;
  readonly nameWords: readonly string[];
  /** Words that a phrase may use for it, in the singular. */
  readonly words: ReadonlySet<string>;
}

const calledBefore = new WeakMap<VesselDeclaration, Called>();

/** What a vessel answers to; asked of every vessel for every phrase, so it is made once. */
function calledOf(vessel: VesselDeclaration): Called {
  const before = calledBefore.get(vessel);
  if (before) return before;
  const name = vessel.name.toLowerCase();
  const words = [
    ...name.split(/[^\p{L}\p{N}-]+/u),
    ...vessel.shape.split(' '),
    ...(ALSO[vessel.shape] ?? []),
  ];
  const called: Called = {
    id: vessel.id.toLowerCase(),
    name,
    nameWords: name.split(' '),
    words: new Set(words.map(singular)),
  };
  calledBefore.set(vessel, called);
  return called;
}

const INDEFINITE = /^an?\s/i;

/** "a flask" is not the tared product flask, nor one that an earlier sentence brought along. */
function isAnother(v: VesselDeclaration, phrase: VesselPhrase): boolean {
  return v.origin !== 'written' || (v.tared && !phrase.tared);
}

/** "the flask" where several sentences brought one: the tared flask that was filtered into last. */
function inHand(
  whole: VesselDeclaration,
  phrase: VesselPhrase,
  vessels: readonly VesselDeclaration[],
  focus: string | undefined,
): VesselDeclaration | undefined {
  if (whole.origin === 'written' || calledOf(whole).id !== bareName(phrase.text)) return undefined;
  if (INDEFINITE.test(phrase.text)) return undefined;
  const held = vessels.find((v) => v.id === focus);
  return held !== undefined && held.name.toLowerCase().endsWith(` ${whole.name.toLowerCase()}`)
    ? held
    : undefined;
}

/**
 * The vessel that a phrase means, among those known: its whole name first, else the one whose name
 * and shape cover every word and whose capacity fits; `prefer` settles a tie.
 */
export function findVessel(
  phrase: VesselPhrase,
  vessels: readonly VesselDeclaration[],
  prefer?: string,
): VesselDeclaration | undefined {
  const joined = phrase.words.join(' ');
  const bare = bareName(phrase.text);
  // "a tared flask" is none that holds something: only one that is declared so
  const another = INDEFINITE.test(phrase.text);
  const fits = (v: VesselDeclaration) =>
    (!another || !phrase.tared || v.tared) &&
    (phrase.capacity_mL === undefined ||
      (v.capacity_mL !== undefined && Math.abs(phrase.capacity_mL - v.capacity_mL) < 1e-9));
  const whole =
    vessels.find((v) => calledOf(v).id === bare) ??
    vessels.find((v) => calledOf(v).name === joined && fits(v));
  const exact = whole && (inHand(whole, phrase, vessels, prefer) ?? whole);
  // Without a vessel's noun only the whole name will do: "the ether" is not the ether flask
  if (exact || phrase.words.length === 0 || phrase.shape === undefined) return exact;
  const { words } = phrase;
  const wanted = words.map(singular);
  const candidates = vessels.filter((v) => {
    // What a verb brought along (a filtrate's flask) answers to its own name alone
    if (
      !fits(v) ||
      (another && isAnother(v, phrase)) ||
      (v.origin === 'implied' && !words.some((word) => calledOf(v).nameWords.includes(word)))
    )
      return false;
    return wanted.every((word) => calledOf(v).words.has(word));
  });
  const named = candidates.filter((v) =>
    words.some((word) => calledOf(v).nameWords.includes(word)),
  );
  const pool = named.length > 0 ? named : candidates;
  return pool.find((v) => v.id === prefer) ?? pool[0];
}

/** A phrase that can only be a vessel: it ends in a vessel noun, or names one that is declared. */
export function looksLikeVessel(written: string, vessels: readonly VesselDeclaration[]): boolean {
  const text = withoutCommas(written);
  const bare = bareName(text);
  if (vessels.some((v) => calledOf(v).id === bare)) return true;
  const words = text.trim().split(/\s+/);
  if (
    words.length > 9 ||
    /,|\b(?:into|to|and|with|which|then|onto|it|in|on|from|for|at|that|through|off|over|under|until|by)\b/i.test(
      text,
    )
  )
    return false;
  const phrase = readVesselPhrase(text);
  if (phrase.words.length === 0) return false;
  return phrase.shape !== undefined || findVessel(phrase, vessels) !== undefined;
}

/** For vessels of one kind, from the second on. */
const ORDINALS = ['second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth'];

/** A name that no other vessel has, told apart in words: "tared flask", "second flask". */
export function freeName(
  name: string,
  vessels: readonly VesselDeclaration[],
  tared = false,
): string {
  const taken = (one: string) => vessels.some((v) => v.id === one || v.name === one);
  if (!taken(name)) return name;
  if (tared && !taken(`tared ${name}`)) return `tared ${name}`;
  const worded = ORDINALS.map((ordinal) => `${ordinal} ${name}`).find((one) => !taken(one));
  if (worded !== undefined) return worded;
  let n = ORDINALS.length + 2;
  while (taken(`${name} ${n}`)) n++;
  return `${name} ${n}`;
}
