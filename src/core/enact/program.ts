import { lower } from '../experiment/lower.ts';
import type { Experiment, Slots, Span } from '../experiment/step.ts';
import type { Move } from '../experiment/move.ts';
import type { VerbKind } from '../experiment/verbs/kind.ts';

/** One sentence, lowered. */
export interface ProgramLine {
  readonly stepId: string;
  readonly verb: VerbKind;
  readonly moves: readonly Move[];
  readonly slots: Slots;
  readonly span: Span;
}

/** An experiment with its sentences lowered to moves: what the kernel runs. Keep the object to run
 * it again: what does not change from bench to bench is worked out once for each. */
export interface Program {
  readonly experiment: Experiment;
  readonly lines: readonly ProgramLine[];
}

/** Lowers every sentence of an experiment; the same object for the same experiment. */
export function programOf(experiment: Experiment): Program {
  const before = programs.get(experiment);
  if (before) return before;
  const lines = experiment.steps.map((step) => ({
    stepId: step.id,
    verb: step.verb,
    moves: lower(step),
    slots: step.slots,
    span: step.span,
  }));
  const program = { experiment, lines };
  programs.set(experiment, program);
  return program;
}

const programs = new WeakMap<Experiment, Program>();
