import { imperativeOf, passiveBegins, passiveClauseBegins, skipLead } from './order.ts';
import { isObservation } from './observation.ts';
import type { Grammar } from './grammar.ts';
import type { SentenceReading } from './read-sentence.ts';
import type { Token } from './token.ts';
import { tokenise } from './token.ts';

/** One of the sentences that "and", "then" and commas join, with its reading. */
export interface SentencePart {
  readonly start: number;
  readonly end: number;
  readonly reading: SentenceReading | undefined;
}

type Read = (text: string) => SentenceReading | undefined;

const JOINING = new Set(['and', 'then', 'while', ',', ';', ':']);
const SPLIT_COST = 0.5;
/** What is left unread costs; the less of it the better, once something has to be. */
const UNREAD_COST = 40;
const UNREAD_LENGTH_COST = 20;
const OBSERVATION_COST = 1;
const PARTS_LIMIT = 14;

/**
 * "Stopper the funnel, shake it, and draw off the lower layer": where a joining word is followed by
 * a verb, a new sentence may begin. Of all ways to part it, the one that costs least is taken.
 */
export function readCompound(text: string, grammar: Grammar, read: Read): SentencePart[] {
  const tokens = tokenise({ text, start: 0 });
  const lead = leadingDeed(text, tokens, grammar, read);
  if (lead) {
    const rest = readCompound(text.slice(lead.end), grammar, read);
    return [
      lead.part,
      ...rest.map(({ start, end, reading }) => ({
        start: start + lead.end,
        end: end + lead.end,
        reading,
      })),
    ];
  }
  const cuts = [0];
  for (
    let i = Math.max(1, skipLead(tokens) + 1);
    i < tokens.length && cuts.length < PARTS_LIMIT;
    i++
  )
    if (
      tokens[i]!.depth === 0 &&
      JOINING.has(tokens[i - 1]!.word) &&
      beginsSentence(text, tokens, i, grammar)
    )
      cuts.push(i);
  if (cuts.length === 1) return [{ start: 0, end: text.length, reading: read(text) }];
  cuts.push(tokens.length);
  interface Way {
    readonly cost: number;
    readonly parts: readonly SentencePart[];
  }
  const best: (Way | undefined)[] = [{ cost: 0, parts: [] }];
  for (let to = 1; to < cuts.length; to++) {
    for (let from = 0; from < to; from++) {
      const before = best[from];
      if (!before) continue;
      const part = partBetween(text, tokens, cuts[from]!, cuts[to]!, read, grammar);
      const cost =
        before.cost +
        (part.reading?.cost ??
          (isObservation(text.slice(part.start, part.end))
            ? OBSERVATION_COST
            : UNREAD_COST + UNREAD_LENGTH_COST * ((cuts[to]! - cuts[from]!) / tokens.length))) +
        (from > 0 ? SPLIT_COST : 0);
      if (!best[to] || cost < best[to]!.cost) best[to] = { cost, parts: [...before.parts, part] };
    }
  }
  return [...(best.at(-1)?.parts ?? [])];
}

/** "After stirring for 2 h, ...", "On cooling in ice, ...": what is done first stands in front. */
function leadingDeed(
  text: string,
  tokens: readonly Token[],
  grammar: Grammar,
  read: Read,
): { part: SentencePart; end: number } | undefined {
  if (!/^(?:after|on|upon)$/.test(tokens[0]?.word ?? '')) return undefined;
  const imperative = imperativeOf(tokens[1]?.word ?? '', grammar);
  const comma = tokens.findIndex((token, i) => i > 1 && token.word === ',' && token.depth === 0);
  if (imperative === undefined || comma < 0) return undefined;
  const { start, end, text: gerund } = tokens[1]!;
  const reading = read(imperative.padEnd(gerund.length) + text.slice(end, tokens[comma]!.start));
  if (!reading || reading.sentence.unexplained.length > 0) return undefined;
  return { part: { start, end: tokens[comma]!.start, reading }, end: tokens[comma]!.end };
}

function beginsSentence(
  text: string,
  tokens: readonly Token[],
  i: number,
  grammar: Grammar,
): boolean {
  const word = tokens[i]!.word;
  if (imperativeOf(word, grammar) !== undefined) return true;
  if (/^(?:for|at)$/.test(word)) return tokens[i - 1]!.word === 'then';
  if (word === 'in' && tokens[i - 1]!.word === 'then') return true;
  // "and concentrated HCl" is a material
  if (
    word === 'concentrated' &&
    !/^(?:in|under|to|on|by|and|with|at|from|using|[,;].*)?$/.test(tokens[i + 1]?.word ?? '')
  )
    return passiveClauseBegins(tokens, i, grammar);
  if (passiveBegins(tokens, i, grammar) || isObservation(text.slice(tokens[i]!.start))) return true;
  return (
    grammar.heads.has(word) ||
    /^(?:allow|let|leave|slowly|carefully|gently|cautiously|stopper|vent)$/.test(word)
  );
}

function partBetween(
  text: string,
  tokens: readonly Token[],
  from: number,
  to: number,
  read: Read,
  grammar: Grammar,
): SentencePart {
  let last = to;
  while (last > from + 1 && JOINING.has(tokens[last - 1]!.word)) last--;
  const start = tokens[from]!.start;
  const end = tokens[last - 1]!.end;
  const words = text.slice(start, end);
  // "then for 30 min in ice" goes on with what was said of the time before
  if (/^in /i.test(words) && from > 0) return { start, end, reading: read(`place ${words}`) };
  if (/^(?:for|at) /i.test(words) && from > 0)
    return { start, end, reading: read(`leave ${words}`) };
  const imperative = from > 0 ? imperativeOf(tokens[from]!.word, grammar) : undefined;
  // Padded to the same length, so that places in the sentence stay right
  return {
    start,
    end,
    reading: read(
      imperative === undefined
        ? words
        : imperative.padEnd(tokens[from]!.text.length) + words.slice(tokens[from]!.text.length),
    ),
  };
}
