import type { Move } from './move.ts';
import type { Step } from './step.ts';
import { VERB_OF } from './verbs/index.ts';

/** What a step does to matter, as kernel moves: asked of its verb. */
export function lower(step: Step): readonly Move[] {
  return VERB_OF[step.verb].lower(step);
}
