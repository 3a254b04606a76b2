import type { Actuals } from '../../enact/actuals.ts';
import { enact } from '../../enact/enact.ts';
import type { Enactment } from '../../enact/enactment.ts';
import { TABLE } from '../../enact/fixture.ts';
import { DEFAULT_POLICY } from '../../enact/policy.ts';
import type { Program } from '../../enact/program.ts';
import type { Move } from '../../experiment/move.ts';
import type { Experiment } from '../../experiment/step.ts';
import type { BenchEntry } from '../../record/entry.ts';
import { foldRecord } from '../../record/fold.ts';
import type { YieldQuestion } from '../yield/judge.ts';
import { yieldReport } from '../yield/yield.ts';
import type { YieldReport } from '../yield/result.ts';

/** An experiment put together by hand, with the moves of each of its steps. */
export interface Course {
  readonly experiment: Experiment;
  readonly plan: Enactment;
  readonly reenact: (actuals: Actuals) => Enactment;
}

export function course(
  experiment: Experiment,
  moves: Readonly<Record<string, readonly Move[]>>,
): Course {
  const program: Program = {
    experiment,
    lines: experiment.steps.map(({ id, verb, slots, span }) => ({
      stepId: id,
      verb,
      slots,
      span,
      moves: moves[id] ?? [],
    })),
  };
  const quick = { ...DEFAULT_POLICY, trace: false };
  return {
    experiment,
    plan: enact(program, TABLE),
    reenact: (actuals) => enact(program, TABLE, quick, actuals),
  };
}

/** [kind, step, item or vessel, value, more]; charges name a use, weighings a vessel. */
export type Line = readonly [
  kind: BenchEntry['kind'],
  step: string,
  what: string,
  value: number,
  more?: Partial<BenchEntry>,
];

/** A record in grams, an entry a line, ten seconds apart; ids are e1, e2 ... */
export function entries(lines: readonly Line[]): BenchEntry[] {
  return lines.map(([kind, step, what, value, more], i): BenchEntry => ({
    id: `e${i + 1}`,
    at: new Date(1_750_000_000_000 + 10_000 * i).toISOString(),
    by: 'R.',
    kind,
    step,
    ...(kind === 'charge' ? { use: what } : { vessel: what }),
    value,
    unit: 'g',
    ...more,
  }));
}

export function question(of: Course, lines: readonly Line[]): YieldQuestion {
  const run = foldRecord(entries(lines), of.experiment);
  return { experiment: of.experiment, plan: of.plan, run, reenact: of.reenact };
}

export function yieldOf(of: Course, lines: readonly Line[]): YieldReport {
  return yieldReport(question(of, lines));
}
