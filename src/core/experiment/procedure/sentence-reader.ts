import { grammarOf } from '../sentence/grammar.ts';
import type { Grammar } from '../sentence/grammar.ts';
import { readSentence } from '../sentence/read-sentence.ts';
import type { SentenceReading } from '../sentence/read-sentence.ts';
import { answersAlike, listening } from '../sentence/vocabulary.ts';
import type { Asked, Vocabulary } from '../sentence/vocabulary.ts';
import { VERBS } from '../verbs/index.ts';

let grammar: Grammar | undefined;
/** All verbs, made ready once. */
export const ready = (): Grammar => (grammar ??= grammarOf(VERBS));

/** Reads a sentence of a document's vocabulary, remembering what it read before. */
export type SentenceReader = (text: string) => SentenceReading | undefined;

const REMEMBERED = 4000;

/** A sentence as it was read, and what its reading rests on. */
interface Kept {
  readonly reading: SentenceReading | undefined;
  readonly asked: readonly Asked[];
}

/** Readings of a sentence that differ in what was answered; the newest last. */
const MOST_READINGS = 4;
const kept = new Map<string, readonly Kept[]>();

/**
 * A reading is used again under another vocabulary where all that was asked for it is answered
 * alike: while someone types among the vessels or substances, most sentences stay what they are.
 */
export function sentenceReader(vocabulary: Vocabulary): SentenceReader {
  const memory = new Map<string, SentenceReading | undefined>();
  return (text) => {
    if (memory.has(text)) return memory.get(text);
    const before = kept.get(text) ?? [];
    const { reading } =
      before.find(({ asked }) => answersAlike(vocabulary, asked)) ??
      keep(text, before, readAfresh(text, vocabulary));
    if (memory.size >= REMEMBERED) memory.clear();
    memory.set(text, reading);
    return reading;
  };
}

function readAfresh(text: string, to: Vocabulary): Kept {
  const already = direct(text);
  if (already) return { reading: already, asked: [] };
  const { vocabulary, asked } = listening(to);
  const begins = (word: string) => ready().heads.has(word);
  const reading = readSentence(text, { text, start: 0 }, ready(), { ...vocabulary, begins });
  return { reading, asked };
}

function keep(text: string, before: readonly Kept[], fresh: Kept): Kept {
  if (kept.size >= REMEMBERED) kept.clear();
  kept.set(text, [...before.slice(1 - MOST_READINGS), fresh]);
  return fresh;
}

function direct(text: string): SentenceReading | undefined {
  for (const verb of VERBS) {
    const sentence = verb.direct?.(text);
    if (sentence) return { sentence, trouble: [], cost: 0 };
  }
  return undefined;
}
