/**
 * What a similarity means, in words, from measured pairs (docs/methods/spectrum-library.md): one
 * substance, transmission against ATR, 0.94 to 1.00 as computed from optical constants; on
 * instruments of different kinds and ages 0.73 to 0.98; of 1093 pairs of different substances the
 * most alike, long alkanes, 0.77, and 99 of 100 below 0.61.
 */
const STEPS = [
  [
    0.95,
    'As alike as two spectra of one substance are. An isomer or a homologue can come as near.',
  ],
  [
    0.8,
    'As alike as one substance on different instruments, or close relatives. Look at both traces.',
  ],
  [0.6, 'Alike in part: a relative, a mixture, or the same groups in another molecule.'],
  [0, 'Not alike.'],
] as const;

/** A sentence or two, for a similarity of 0 to 1. */
export function similarityWords(similarity: number): string {
  return (STEPS.find(([least]) => similarity >= least) ?? STEPS[STEPS.length - 1]!)[1];
}

/** Said once beside every list of matches. */
export const SIMILARITY_LIMITS =
  'Similarity compares shapes and proves nothing by itself: what is not in the library cannot be found, and a little of an impurity hardly changes it.';
