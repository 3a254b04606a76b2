import type { Piece } from '../text.ts';
import type { Verb } from '../verbs/verb.ts';
import type { RawSentence } from '../verbs/verb.ts';
import type { Vocabulary } from './argument.ts';
import { ClauseReader } from './clause.ts';
import type { Parting, ReadyVerb } from './clause.ts';
import { phraseTable } from './manner.ts';
import type { MaterialTrouble } from './materials.ts';
import type { Token } from './token.ts';
import { tokenise } from './token.ts';

export interface SentenceReading {
  readonly sentence: RawSentence;
  readonly trouble: readonly MaterialTrouble[];
  /** How much speaks against the reading; a word that nothing explains counts 10. */
  readonly cost: number;
}

/** One of the sentences that "and", "then" and commas join, with its reading. */
export interface SentencePart {
  readonly start: number;
  readonly end: number;
  readonly reading: SentenceReading | undefined;
}

interface Head {
  readonly words: readonly string[];
  readonly ready: ReadyVerb;
}

/** All verbs, made ready once: heads by their first word, participles by their form. */
export interface Grammar {
  readonly heads: ReadonlyMap<string, readonly Head[]>;
  readonly participles: ReadonlyMap<string, readonly string[]>;
}

export function grammarOf(verbs: readonly Verb[]): Grammar {
  const heads = new Map<string, Head[]>();
  const participles = new Map<string, string[]>();
  const addParticiple = (form: string, head: readonly string[]) => {
    if (!participles.has(form)) participles.set(form, [...head]);
  };
  for (const verb of verbs) {
    const ready: ReadyVerb = {
      verb,
      clauses: verb.clauses
        .flatMap((form) => form.words.length === 0 ? [{ words: [], form }] : form.words.map((words) => ({ words: words.split(' '), form })))
        .sort((a, b) => b.words.length - a.words.length),
      manners: phraseTable(verb.manners ?? {}),
    };
    for (const head of verb.heads) {
      const words = head.split(' ');
      heads.set(words[0]!, [...(heads.get(words[0]!) ?? []), { words, ready }]);
      for (const form of participlesOf(words[0]!)) addParticiple(form, [words[0]!]);
    }
    for (const [form, head] of Object.entries(verb.participles ?? {})) participles.set(form, head.split(' '));
  }
  return { heads, participles };
}

/** add -> added, charge -> charged, dry -> dried, stir -> stirred. */
function participlesOf(word: string): string[] {
  if (word.endsWith('e')) return [`${word}d`];
  if (/[^aeiou]y$/.test(word)) return [`${word.slice(0, -1)}ied`];
  const doubled = /[^aeiou][aeiou][bdglmnprt]$/.test(word) ? [`${word}${word.at(-1)}ed`] : [];
  return [...doubled, `${word}ed`];
}

const MODAL = new Set(['is', 'are', 'was', 'were', 'be', 'been', 'being']);
const FRONT = /^(?:to|into|in|with|under|after|when|once|while|using|from|over|for|at|on|by|through|as|slowly|carefully|cautiously|gently|then|next|now|finally|immediately|quickly|dropwise|meanwhile|if|,)$/;

/** Words put into imperative order; `breaks` are the places where neighbours were not so in the text. */
interface Order {
  readonly tokens: readonly Token[];
  readonly breaks: ReadonlySet<number>;
  /** Where in `tokens` the head may stand. */
  readonly headAt: number;
  readonly penalty: number;
}

/** A sentence's possible orders: as it stands, with what is in front put last, and from the passive. */
function orders(tokens: readonly Token[], grammar: Grammar): Order[] {
  const found: Order[] = [];
  const lead = skipLead(tokens);
  for (let p = lead; p < Math.min(tokens.length, lead + 24); p++) {
    const token = tokens[p]!;
    if (token.depth > 0) continue;
    if (grammar.heads.has(token.word) && (p === lead || FRONT.test(tokens[lead]!.word)))
      found.push(reorder(tokens, lead, p, p, p === lead ? 0 : 1.5));
    const passive = passiveAt(tokens, p, grammar);
    if (passive) found.push(passiveOrder(tokens, lead, p, passive));
    const allow = p === lead && /^(?:allow|let|leave|permit|bring)$/.test(token.word) ? allowOrder(tokens, p, grammar) : undefined;
    if (allow) found.push(allow);
  }
  return found;
}

/** "Then", "Next," and a subordinate clause up to its comma are not part of what is done. */
function skipLead(tokens: readonly Token[]): number {
  let i = 0;
  while (i < tokens.length && /^(?:then|next|now|finally|and|first|second|third|lastly|meanwhile|afterwards|thereafter|,)$/.test(tokens[i]!.word)) i++;
  if (/^(?:when|once|after|while|as|if|before|because|since|during)$/.test(tokens[i]?.word ?? '')) {
    const comma = tokens.findIndex((token, k) => k > i && token.word === ',' && token.depth === 0);
    if (comma > 0 && comma < tokens.length - 1) return comma + 1;
  }
  return i;
}

function passiveAt(tokens: readonly Token[], p: number, grammar: Grammar): { at: number; base: readonly string[] } | undefined {
  if (!MODAL.has(tokens[p]!.word)) return undefined;
  for (let k = p + 1; k < Math.min(tokens.length, p + 5); k++) {
    const base = grammar.participles.get(tokens[k]!.word);
    if (base) return { at: k, base };
    if (!/ly$|^(?:then|now|dropwise|again|further|subsequently|not|to|be|next|first)$/.test(tokens[k]!.word)) return undefined;
  }
  return undefined;
}

function reorder(tokens: readonly Token[], lead: number, from: number, p: number, penalty: number): Order {
  const front = tokens.slice(lead, p);
  const rest = tokens.slice(from);
  const breaks = new Set<number>(front.length > 0 ? [rest.length] : []);
  return { tokens: [...rest, ...front], breaks, headAt: 0, penalty };
}

function passiveOrder(tokens: readonly Token[], lead: number, p: number, passive: { at: number; base: readonly string[] }): Order {
  const head = tokens[passive.at]!;
  const heads = passive.base.map((word, i) => ({ ...head, word, text: i === 0 ? head.text : word }));
  const between = tokens.slice(p + 1, passive.at);
  const subject = tokens.slice(lead, p);
  const rest = tokens.slice(passive.at + 1);
  // "To the flask was added sodium borohydride": what is in front is a clause, not the subject
  const inverted = subject.length > 0 && /^(?:to|into|in|under|with|over|at)$/.test(subject[0]!.word);
  const parts = inverted ? [rest, subject, between] : [subject, rest, between];
  const ordered: Token[] = [...heads];
  const breaks = new Set<number>([heads.length]);
  for (const part of parts) {
    ordered.push(...part);
    breaks.add(ordered.length);
  }
  breaks.delete(ordered.length);
  return { tokens: ordered, breaks, headAt: 0, penalty: 0.2 };
}

/** "Allow the mixture to cool to room temperature" -> "cool the mixture to room temperature". */
function allowOrder(tokens: readonly Token[], p: number, grammar: Grammar): Order | undefined {
  const bare = tokens[p]!.word === 'let';
  for (let k = p + 1; k < tokens.length; k++) {
    if (tokens[k]!.depth > 0) continue;
    const to = tokens[k]!.word === 'to';
    if (to && k === tokens.length - 1) break;
    if (!to && !(bare && k > p + 1 && grammar.heads.has(tokens[k]!.word))) continue;
    const next = to ? tokens[k + 1]! : tokens[k]!;
    const head = next.word === 'stand' || next.word === 'sit' || next.word === 'settle' || next.word === 'react' ? 'stand' : next.word;
    if (!grammar.heads.has(head)) continue;
    const subject = tokens.slice(p + 1, k);
    const rest = tokens.slice(to ? k + 2 : k + 1);
    const ordered = [{ ...next, word: head }, ...subject, ...rest];
    return { tokens: ordered, breaks: new Set([1, 1 + subject.length]), headAt: 0, penalty: 0 };
  }
  return undefined;
}

const SENTENCE_WORDS_LIMIT = 160;

/** Reads one sentence, or says that no verb explains it. */
export function readSentence(
  document: string,
  piece: Piece,
  grammar: Grammar,
  vocabulary: Vocabulary,
): SentenceReading | undefined {
  const tokens = tokenise(piece);
  if (tokens.length === 0 || tokens.length > SENTENCE_WORDS_LIMIT) return undefined;
  const reader = new ClauseReader(document, vocabulary);
  let best: { cost: number; parting: Parting; ready: ReadyVerb; head: readonly string[] } | undefined;
  for (const order of orders(tokens, grammar)) {
    for (const head of grammar.heads.get(order.tokens[order.headAt]!.word) ?? []) {
      if (!head.words.every((word, k) => order.tokens[k]?.word === word)) continue;
      const rest = order.tokens.slice(head.words.length);
      const breaks = new Set([...order.breaks].map((b) => b - head.words.length).filter((b) => b > 0));
      const parting = reader.part(head.ready, rest, breaks);
      if (!parting) continue;
      const cost = parting.cost + order.penalty - 0.1 * head.words.length;
      if (best && cost >= best.cost) continue;
      const sentence = sentenceOf(head.ready.verb, head.words, parting);
      if (head.ready.verb.fits && !head.ready.verb.fits(sentence)) continue;
      best = { cost, parting, ready: head.ready, head: head.words };
    }
  }
  if (!best) return undefined;
  const { parting } = best;
  if (parting.unexplained.length > Math.max(2, 0.34 * tokens.length)) return undefined;
  return { sentence: sentenceOf(best.ready.verb, best.head, parting), trouble: parting.trouble, cost: best.cost };
}

function sentenceOf(verb: Verb, head: readonly string[], parting: Parting): RawSentence {
  return { verb: verb.kind, head: head.join(' '), arguments: parting.slots, manner: parting.manner, unexplained: parting.unexplained };
}

const JOINING = new Set(['and', 'then', ',', ';']);
const SPLIT_COST = 0.5;
const UNREAD_COST = 60;
const PARTS_LIMIT = 10;

/**
 * "Stopper the funnel, shake it, and draw off the lower layer": where a joining word is followed by
 * a verb, a new sentence may begin. Of all ways to part it, the one that costs least is taken.
 */
export function readCompound(
  text: string,
  grammar: Grammar,
  read: (text: string) => SentenceReading | undefined,
): SentencePart[] {
  const tokens = tokenise({ text, start: 0 });
  const cuts = [0];
  for (let i = 1; i < tokens.length && cuts.length < PARTS_LIMIT; i++)
    if (tokens[i]!.depth === 0 && JOINING.has(tokens[i - 1]!.word) && beginsSentence(tokens, i, grammar)) cuts.push(i);
  if (cuts.length === 1) return [{ start: 0, end: text.length, reading: read(text) }];
  cuts.push(tokens.length);
  interface Way { readonly cost: number; readonly parts: readonly SentencePart[] }
  const best: (Way | undefined)[] = [{ cost: 0, parts: [] }];
  for (let to = 1; to < cuts.length; to++) {
    for (let from = 0; from < to; from++) {
      const before = best[from];
      if (!before) continue;
      const part = partBetween(text, tokens, cuts[from]!, cuts[to]!, read, grammar);
      const cost = before.cost + (part.reading?.cost ?? UNREAD_COST) + (from > 0 ? SPLIT_COST : 0);
      if (!best[to] || cost < best[to]!.cost) best[to] = { cost, parts: [...before.parts, part] };
    }
  }
  return [...(best.at(-1)?.parts ?? [])];
}

function beginsSentence(tokens: readonly Token[], i: number, grammar: Grammar): boolean {
  const word = tokens[i]!.word;
  if (imperativeOf(word, grammar) !== undefined) return true;
  if (/^(?:for|at)$/.test(word)) return tokens[i - 1]!.word === 'then';
  return grammar.heads.has(word) || /^(?:allow|let|leave|slowly|carefully|gently|cautiously|stopper|vent)$/.test(word);
}

function partBetween(text: string, tokens: readonly Token[], from: number, to: number, read: (text: string) => SentenceReading | undefined, grammar: Grammar): SentencePart {
  let last = to;
  while (last > from + 1 && JOINING.has(tokens[last - 1]!.word)) last--;
  const start = tokens[from]!.start;
  const end = tokens[last - 1]!.end;
  const words = text.slice(start, end);
  // "then for 30 min in ice" goes on with what was said of the time before
  if (/^(?:for|at) /i.test(words) && from > 0) return { start, end, reading: read(`leave ${words}`) };
  const imperative = from > 0 ? imperativeOf(tokens[from]!.word, grammar) : undefined;
  // Padded to the same length, so that places in the sentence stay right
  return { start, end, reading: read(imperative === undefined ? words : imperative.padEnd(tokens[from]!.text.length) + words.slice(tokens[from]!.text.length)) };
}

/** "rinsing the funnel with ether 5 mL" after a comma is a sentence of its own: rinsing -> rinse. */
function imperativeOf(word: string, grammar: Grammar): string | undefined {
  if (word.length < 6 || !word.endsWith('ing')) return undefined;
  const stem = word.slice(0, -3);
  const undoubled = stem.at(-1) === stem.at(-2) ? stem.slice(0, -1) : undefined;
  return [stem, `${stem}e`, undoubled].find((form) => form !== undefined && grammar.heads.has(form));
}
