import { align } from './align.ts';
import { amountChanges } from './amounts.ts';
import type { AmountChange } from './amounts.ts';
import { consequencesOf } from './consequences.ts';
import type { Consequence } from './consequences.ts';
import { otherChanges } from './other.ts';
import type { OtherChange } from './other.ts';
import { sideOf } from './side.ts';
import { stepChanges } from './steps.ts';
import type { StepChange } from './steps.ts';

/** What is another between two versions of an experiment, in words and in amounts. */
export interface Difference {
  /** What follows, first. */
  readonly consequences: readonly Consequence[];
  readonly amounts: readonly AmountChange[];
  readonly steps: readonly StepChange[];
  readonly other: readonly OtherChange[];
  /** All of it in sentences; empty where nothing has changed but how the text is set. */
  readonly sentences: readonly string[];
}

/**
 * Compares two texts of an experiment. Sentences are laid beside each other by what they say, not
 * by their number, so that a step put in front does not make all the others new.
 */
export function differenceOf(textBefore: string, textAfter: string): Difference {
  const before = sideOf(textBefore);
  const after = sideOf(textAfter);
  const alignment = align(
    before.sentences.map((each) => each.text),
    after.sentences.map((each) => each.text),
  );
  const steps = stepChanges(before, after, alignment);
  const amounts = amountChanges(before, after, alignment.pairs, steps);
  const other = otherChanges(before, after);
  const consequences = consequencesOf(before, after);
  const sentences = [...consequences, ...amounts, ...steps, ...other].map((each) => each.sentence);
  return { consequences, amounts, steps, other, sentences };
}
