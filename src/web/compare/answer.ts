import type { Difference } from '../../core/report/difference/difference.ts';

/** What one came for: what follows from the change, in one sentence with its numbers, and the rest. */
export function answerOf(
  difference: Difference,
  texts: { readonly from: string; readonly to: string },
): { readonly first: string; readonly rest: readonly string[] } {
  const [first, ...rest] = difference.consequences.map(({ sentence }) => sentence);
  if (first !== undefined) return { first, rest };
  if (texts.from === texts.to) return { first: 'Both versions have the same text.', rest: [] };
  const changes = difference.amounts.length + difference.steps.length + difference.other.length;
  if (changes === 0)
    return { first: 'Only blanks and line ends differ; nothing follows from it.', rest: [] };
  const places = difference.steps.length + difference.other.length;
  const text = places === 1 ? 'One place of the text' : `${places} places of the text`;
  return {
    first: `${text} changed; theory, limits, time and gas stay as they were.`,
    rest: [],
  };
}
