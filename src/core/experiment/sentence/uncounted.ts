import { readAmountAt } from '../../quantity/amount.ts';
import type { Argument, RawSentence } from '../verbs/verb.ts';
import { shapeOf } from '../vessels.ts';

export interface Uncounted {
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

/**
 * Amounts of a known material that a sentence writes and no argument holds: they lie in words taken
 * for a remark, and would be missing from the ledger without a sound.
 */
export function uncountedAmounts(
  text: string,
  sentence: RawSentence,
  knows: (name: string) => boolean,
): readonly Uncounted[] {
  const before = looked.get(sentence);
  if (before?.text === text) return before.found;
  const held = Object.values(sentence.arguments).flatMap(spansOf);
  const found = lookFor(text, held, knows);
  looked.set(sentence, { text, found });
  return found;
}

/** Readings are kept while a document is typed, and with them what was found of each. */
const looked = new WeakMap<RawSentence, { text: string; found: readonly Uncounted[] }>();

/** Amounts of known materials in a sentence of which nothing is read. */
export function amountsIn(text: string, knows: (name: string) => boolean): readonly Uncounted[] {
  return lookFor(text, [], knows);
}

interface Held {
  readonly start: number;
  readonly end: number;
  readonly amount?: string;
}

function lookFor(
  text: string,
  held: readonly Held[],
  knows: (name: string) => boolean,
): Uncounted[] {
  const found: Uncounted[] = [];
  for (const match of text.matchAll(/(?:^|[\s(])(?=\d)/g)) {
    const start = match.index + match[0].length;
    if (held.some((span) => start >= span.start && start < span.end)) continue;
    const reading = readAmountAt(text, start);
    if (reading.kind !== 'amount' || !/^(?:mass|volume|amount)$/.test(reading.amount.kind))
      continue;
    if (held.some((span) => span.amount === reading.amount.text)) continue;
    const name = nameBeside(text, start, reading.end, knows);
    if (!name) continue;
    const end = text[name.end] === ')' ? name.end + 1 : name.end;
    found.push({ text: text.slice(name.start, end), start: name.start, end });
  }
  return found;
}

function spansOf(argument: Argument): Held[] {
  switch (argument.kind) {
    case 'materials':
      return argument.materials.map(({ start, end }) => ({ start, end }));
    case 'ref':
      return [{ start: argument.start, end: argument.start + argument.ref.text.length }];
    case 'refs':
      return argument.refs.map((ref) => ({
        start: argument.start,
        end: argument.start + ref.text.length + 40,
      }));
    case 'vessel':
      return [{ start: argument.start, end: argument.start + argument.phrase.length }];
    case 'amount':
      return [{ start: -1, end: -1, amount: argument.amount.text }];
    case 'bath':
    case 'portions':
    case 'stream':
    case 'keep':
    case 'detail':
      return [];
  }
}

/** "5 mL of water", "5 mL water", "water (5 mL)", "water 5 mL". */
function nameBeside(
  text: string,
  start: number,
  end: number,
  knows: (name: string) => boolean,
): { start: number; end: number } | undefined {
  const after = /^(?:\s*\([^()]*\))?\s+(?:of\s+)?((?:[\p{L}\p{N}()-]+\s?){1,4})/u.exec(
    text.slice(end),
  );
  const words = after?.[1]?.trim().split(/\s+/) ?? [];
  if (words.some((_, i) => shapeOf(words.slice(0, i + 1).join(' ')) !== undefined))
    return undefined;
  for (let n = words.length; n > 0; n--)
    if (knows(words.slice(0, n).join(' ')))
      return {
        start,
        end: end + after![0].indexOf(words[0]!) + words.slice(0, n).join(' ').length,
      };
  const before = /((?:[\p{L}\p{N}()-]+\s){1,3})\(?$/u.exec(text.slice(0, start));
  const earlier = before?.[1]?.trim().split(/\s+/) ?? [];
  for (let n = 0; n < earlier.length; n++)
    if (knows(earlier.slice(n).join(' ')))
      return { start: text.lastIndexOf(earlier[n]!, start), end };
  return undefined;
}
