import type { Token } from './token.ts';
import { textOf } from './token.ts';
import type { ReadArgument } from './argument.ts';
import { ARGUMENT_READERS } from './argument.ts';
import { asideEnds } from './aside.ts';
import { IDLE, MANNER_TABLE, doingAt, phraseAt } from './manner.ts';
import type { PhraseTable } from './manner.ts';
import type { MaterialTrouble } from './materials.ts';
import type { Vocabulary } from './vocabulary.ts';
import type { Argument, ArgumentKind, ClauseForm, RawSlot, Verb } from '../verbs/verb.ts';

export interface ReadyClause {
  readonly words: readonly string[];
  readonly form: ClauseForm;
}

/** A verb with its words made ready for matching. */
export interface ReadyVerb {
  readonly verb: Verb;
  readonly clauses: readonly ReadyClause[];
  /** The same by their first word; those that need no word under ''. */
  readonly byFirst: ReadonlyMap<string, readonly ReadyClause[]>;
  readonly manners: PhraseTable;
}

export interface Parting {
  readonly cost: number;
  readonly slots: Partial<Record<RawSlot, Argument>>;
  readonly manner: readonly string[];
  readonly unexplained: readonly {
    readonly text: string;
    readonly start: number;
    readonly end: number;
  }[];
  readonly trouble: readonly MaterialTrouble[];
}

export const UNEXPLAINED_COST = 10;
/** Of two readings the one with fewer parts: "the layers in the funnel" is one thing. */
const ARGUMENT_COST = 0.02;
/** Dearer than a clause, cheaper than a word that nothing explains. */
const ASIDE_COST = 0.7;
const UNFIT_MARGIN = 2;
/** More looks than any honest sentence needs; past it the best so far is taken. */
const LOOK_LIMIT = 4000;

/** Sorts the words after a verb's head into its object and clauses, at the least cost. */
export class ClauseReader {
  private readonly cache = new Map<string, ReadArgument | undefined>();
  private readonly ends = new Map<string, readonly boolean[]>();
  private looks = 0;

  constructor(
    private readonly document: string,
    private readonly vocabulary: Vocabulary,
  ) {}

  private argument(
    tokens: readonly Token[],
    kind: ArgumentKind,
    from: number,
    to: number,
  ): ReadArgument | undefined {
    if (from >= to || tokens[from]!.depth > 0) return undefined;
    const piece = textOf(this.document, tokens, from, to);
    const key = `${kind} ${piece.start} ${piece.text.length}`;
    if (this.cache.has(key)) return this.cache.get(key);
    const read = ARGUMENT_READERS[kind](piece, this.vocabulary);
    this.cache.set(key, read);
    return read;
  }

  /** `tokens` in reading order; an argument never reaches over a place where that order was changed. */
  part(
    ready: ReadyVerb,
    tokens: readonly Token[],
    breaks: ReadonlySet<number>,
    fits: (parting: Parting) => boolean = () => true,
    /** What another reading costs already: dearer ones are not looked at. */
    limit = Infinity,
  ): Parting | undefined {
    const ends = this.boundaries(ready, tokens, breaks);
    this.looks = 0;
    let best: Parting | undefined;
    // The best that is no sentence of this verb: one that is may cost a little more
    let unfit = Infinity;
    const search = (i: number, object: boolean, sofar: Parting): void => {
      if (sofar.cost >= limit || (best && sofar.cost >= best.cost)) return;
      if (sofar.cost >= unfit + UNFIT_MARGIN) return;
      if (++this.looks > LOOK_LIMIT) return;
      if (i >= tokens.length) {
        if (fits(sofar)) best = sofar;
        else unfit = Math.min(unfit, sofar.cost);
        return;
      }
      if (breaks.has(i) && i > 0) object = false;
      const token = tokens[i]!;
      const stop = nextBreak(breaks, i, tokens.length);
      const tryArgument = (kind: ArgumentKind, slot: RawSlot, from: number, turns = 1) => {
        if (sofar.slots[slot] !== undefined) return;
        for (const end of ends) {
          if (end <= from) continue;
          if (end > stop) break;
          const read = this.argument(tokens, kind, from, end);
          if (read)
            search(end, false, extend(sofar, slot, turns > 1 ? repeated(read, turns) : read));
        }
      };
      if (token.depth === 0) {
        for (const { words, form } of clausesAt(ready, token.word))
          if (words.every((word, k) => tokens[i + k]?.word === word))
            tryArgument(form.kind, form.slot, i + words.length);
        if (object)
          for (const { kind, slot } of ready.verb.object ?? []) tryArgument(kind, slot, i);
        const turns = turnsAt(tokens, i);
        if (turns)
          for (const { words, form } of ready.clauses)
            if (
              form.kind === 'materials' &&
              words.length === 1 &&
              words[0] === tokens[i + turns.length]?.word
            )
              tryArgument(form.kind, form.slot, i + turns.length + 1, turns.count);
        const manner =
          phraseAt(ready.manners, tokens, i) ??
          phraseAt(MANNER_TABLE, tokens, i) ??
          doingAt(tokens, i);
        if (manner)
          search(i + manner.length, object, { ...sofar, manner: [...sofar.manner, manner.value] });
      }
      for (const end of asideEnds(tokens, i, stop))
        if (end <= stop)
          search(end, false, { ...sofar, cost: sofar.cost + ASIDE_COST + 0.05 * (end - i) });
      const [next, passed] = passOver(tokens, i, sofar);
      search(next, object, passed);
    };
    search(0, true, { cost: 0, slots: {}, manner: [], unexplained: [], trouble: [] });
    return best;
  }

  /** Places that end an argument of any verb; asked for again with every head of a sentence. */
  private commonEnds(tokens: readonly Token[], breaks: ReadonlySet<number>): readonly boolean[] {
    const key = `${tokens.map(({ start }) => start).join()} ${[...breaks].join()}`;
    const before = this.ends.get(key);
    if (before) return before;
    const ends = tokens.map(
      (token, i) =>
        token.depth === 0 &&
        (token.word === 'overnight' ||
          phraseAt(MANNER_TABLE, tokens, i) !== undefined ||
          doingAt(tokens, i) !== undefined ||
          bareTimeAt(tokens, i) ||
          turnsAt(tokens, i) !== undefined ||
          asideEnds(tokens, i, nextBreak(breaks, i, tokens.length)).length > 0),
    );
    this.ends.set(key, ends);
    return ends;
  }

  /** Places where an argument may end: before a clause word, a manner word, a comma, or at the end. */
  private boundaries(
    ready: ReadyVerb,
    tokens: readonly Token[],
    breaks: ReadonlySet<number>,
  ): number[] {
    const ends: number[] = [];
    const common = this.commonEnds(tokens, breaks);
    for (let i = 1; i <= tokens.length; i++) {
      const token = tokens[i];
      if (token === undefined || breaks.has(i)) {
        ends.push(i);
        continue;
      }
      if (token.depth > 0) continue;
      if (
        /^[,:;]$/.test(token.word) ||
        token.word.startsWith('(') ||
        token.word === 'and' ||
        token.word === 'then' ||
        opensClause(ready, tokens, i) ||
        phraseAt(ready.manners, tokens, i) !== undefined ||
        common[i]!
      )
        ends.push(i);
    }
    return ends;
  }
}

function opensClause({ byFirst }: ReadyVerb, tokens: readonly Token[], at: number): boolean {
  const clauses = byFirst.get(tokens[at]!.word) ?? NONE;
  return clauses.some(({ words }) => words.every((word, k) => tokens[at + k]?.word === word));
}

const NONE: readonly ReadyClause[] = [];

function* clausesAt(ready: ReadyVerb, word: string): Iterable<ReadyClause> {
  yield* ready.byFirst.get(word) ?? NONE;
  yield* ready.byFirst.get('') ?? NONE;
}

/** "Stir the mixture 30 min" */
function bareTimeAt(tokens: readonly Token[], at: number): boolean {
  return (
    /^\d[\d.,–-]*$/.test(tokens[at]!.word) &&
    /^(?:s|sec|seconds?|min|mins|minutes?|h|hr|hrs|hours?|d|days?)\.?$/.test(
      tokens[at + 1]?.word ?? '',
    )
  );
}

const TURNS: Readonly<Record<string, number>> = {
  once: 1,
  twice: 2,
  thrice: 3,
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  '2': 2,
  '3': 3,
  '4': 4,
  '5': 5,
};

/** "twice", "three times" before "with". */
function turnsAt(
  tokens: readonly Token[],
  at: number,
): { count: number; length: number } | undefined {
  const { word } = tokens[at]!;
  const count = TURNS[word];
  if (count === undefined) return undefined;
  if (/^(?:once|twice|thrice)$/.test(word)) return { count, length: 1 };
  return tokens[at + 1]?.word === 'times' ? { count, length: 2 } : undefined;
}

/** The material named next as often as is said, where its amounts do not say so already. */
function repeated(read: ReadArgument, turns: number): ReadArgument {
  if (read.argument.kind !== 'materials') return read;
  const materials = read.argument.materials.map((material, i) =>
    i > 0 || material.repeat > 1 ? material : { ...material, repeat: turns },
  );
  return { ...read, argument: { kind: 'materials', materials } };
}

/** A bracket, an idle word, or a word that nothing explains: what it costs to go on behind it. */
function passOver(tokens: readonly Token[], i: number, sofar: Parting): [number, Parting] {
  const token = tokens[i]!;
  if (token.word.startsWith('(')) return [closing(tokens, i), { ...sofar, cost: sofar.cost + 1 }];
  if (IDLE.has(token.word)) return [i + 1, { ...sofar, cost: sofar.cost + 0.4 }];
  const word = { text: token.text, start: token.start, end: token.end };
  const cost = sofar.cost + UNEXPLAINED_COST;
  return [i + 1, { ...sofar, cost, unexplained: [...sofar.unexplained, word] }];
}

function extend(sofar: Parting, slot: RawSlot, read: ReadArgument): Parting {
  return {
    ...sofar,
    cost: sofar.cost + read.cost + ARGUMENT_COST,
    slots: { ...sofar.slots, [slot]: read.argument },
    trouble: read.trouble ? [...sofar.trouble, ...read.trouble] : sofar.trouble,
  };
}

function nextBreak(breaks: ReadonlySet<number>, from: number, length: number): number {
  for (let i = from + 1; i < length; i++) if (breaks.has(i)) return i;
  return length;
}

function closing(tokens: readonly Token[], from: number): number {
  const depth = tokens[from]!.depth;
  let i = from + 1;
  while (i < tokens.length && tokens[i]!.depth > depth) i++;
  return i;
}
