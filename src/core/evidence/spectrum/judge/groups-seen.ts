import type { InfraredSpectrum, SampleState } from '../infrared.ts';
import type { Known, TraceContext } from './context.ts';
import { contextOf } from './context.ts';
import type { GroupJudgement, JudgedGroup } from './group-judgement.ts';
import { JUDGED_GROUPS } from './group-judgement.ts';
import { judgedFrom } from './group.ts';
import { maximaWithin } from './maxima.ts';
import { readingsOf } from './readings.ts';

/** The states that a trace without a word about it is judged as. */
const GUESSES: readonly SampleState[] = ['film', 'disc'];

/**
 * Every group, judged from the trace alone. `known.elements` are the symbols that the sample can
 * hold; it rules out groups that need others. Without a state the trace is judged as a film, as a
 * disc and, where it may be one, as a vapour, and the verdict stands only where all agree.
 */
export function groupsSeen(
  spectrum: InfraredSpectrum,
  known: Known = {},
): readonly GroupJudgement[] {
  return groupsIn(contextOf(spectrum, known));
}

/** The same of a trace that was looked at already. */
export function groupsIn(context: TraceContext): readonly GroupJudgement[] {
  if (context.stateIsKnown) return judgedAs(context);
  const states = mayBeVapour(context) ? [...GUESSES, 'gas' as const] : GUESSES;
  const guesses = states.map((state) => judgedAs({ ...context, state }));
  return JUDGED_GROUPS.map((group) => agreed(group, guesses));
}

/** A narrow band where an O–H absorbs that bonds to nothing, and no broad one of a bonded O–H. */
function mayBeVapour({ maxima, view }: TraceContext): boolean {
  const free = maximaWithin(maxima, 3550, 3695).some(({ width_percm }) => width_percm < 75);
  const bonded = maximaWithin(maxima, 3150, 3560).some(
    ({ width_percm, height }) => width_percm > 110 && height > 0.15 * view.tallest,
  );
  return free && !bonded;
}

function judgedAs(context: TraceContext): readonly GroupJudgement[] {
  const readings = readingsOf(context);
  return JUDGED_GROUPS.map((group) => judgedFrom(readings, group));
}

function agreed(
  group: JudgedGroup,
  guesses: readonly (readonly GroupJudgement[])[],
): GroupJudgement {
  const all = guesses.flatMap((one) => one.filter((judgement) => judgement.group === group));
  const first = all[0]!;
  const same = all.every(({ verdict }) => verdict === first.verdict);
  const probability = all.reduce((sum, one) => sum + one.probability, 0) / all.length;
  if (same) return { ...first, probability };
  return {
    ...first,
    verdict: 'cannotTell',
    probability,
    reasons: [...first.reasons, 'It depends on how the sample was measured, which is not said.'],
  };
}
