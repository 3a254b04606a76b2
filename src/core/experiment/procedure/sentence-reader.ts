import type { Vocabulary } from '../sentence/argument.ts';
import { grammarOf } from '../sentence/grammar.ts';
import type { Grammar } from '../sentence/grammar.ts';
import { readSentence } from '../sentence/read-sentence.ts';
import type { SentenceReading } from '../sentence/read-sentence.ts';
import { VERBS } from '../verbs/index.ts';

let grammar: Grammar | undefined;
/** All verbs, made ready once. */
export const ready = (): Grammar => (grammar ??= grammarOf(VERBS));

/** Reads a sentence of a document's vocabulary, remembering what it read before. */
export type SentenceReader = (text: string) => SentenceReading | undefined;

const REMEMBERED = 4000;

export function sentenceReader(vocabulary: Vocabulary): SentenceReader {
  const memory = new Map<string, SentenceReading | undefined>();
  return (text) => {
    if (memory.has(text)) return memory.get(text);
    const reading =
      direct(text) ??
      readSentence(text, { text, start: 0 }, ready(), {
        ...vocabulary,
        begins: (word) => ready().heads.has(word),
      });
    if (memory.size >= REMEMBERED) memory.clear();
    memory.set(text, reading);
    return reading;
  };
}

function direct(text: string): SentenceReading | undefined {
  for (const verb of VERBS) {
    const sentence = verb.direct?.(text);
    if (sentence) return { sentence, trouble: [], cost: 0 };
  }
  return undefined;
}
