import type { Vocabulary } from '../vocabulary.ts';

/** A passive, whole or begun ("was poured", "dried over it"), tells what is done. */
const DEEDS = String.raw`added|filtered|dried|air-dried|washed|weighed|poured|cooled|decanted|transferred|treated|collected|stirred|heated|evaporated|separated|recrystalli[sz]ed|rinsed|acidified|extracted|distilled|drained|stoppered|shaken|pressed|refluxed|concentrated|diluted|allowed|left`;
export const DONE = new RegExp(
  String.raw`\b(?:is|are|was|were|been|being)\b|^(?:${DEEDS})(?:$| (?:by|in|on|at|to|into|with|through|from|over|under|for|off|as)\b)`,
  'i',
);
/** "..., filtered and concentrated": more that is done. */
export const NEXT_DEED = new RegExp(
  String.raw`(?:,|\band)\s+(?:then\s+)?(?:[a-z]+ly\s+)?(?:${DEEDS})\b`,
  'i',
);

/** Whether a phrase begins as a sentence does, and so is no name. */
export function beginsDeed(text: string, vocabulary: Vocabulary): boolean {
  const word = /^[\p{L}-]+/u.exec(text.trim())?.[0].toLowerCase();
  return word !== undefined && vocabulary.begins?.(word) === true && !vocabulary.knows(text.trim());
}

/** "weigh the flask", which no reference is: a deed and what it is done to. */
export function tellsDeed(text: string, vocabulary: Vocabulary): boolean {
  return (
    /^\s*[\p{L}-]+\s+(?:the|an?|this|your|its|it|them)\b/u.test(text) &&
    beginsDeed(text, vocabulary)
  );
}
