import type { Diagnostic, Severity } from '../diagnostic.ts';
import type { Span } from '../experiment/step.ts';
import type { Basis, Posting } from '../ledger/posting.ts';
import type { Actuals } from './actuals.ts';
import type { Charge, GasRelease, ObservationEvent, Passage, ReactionRun } from './enactment.ts';
import type { StepTrace } from './enactment.ts';
import type { Compiled } from './compile.ts';
import type { Policy } from './policy.ts';
import type { ProgramLine } from './program.ts';
import { remark } from './say.ts';
import type { Vessel } from './vessel.ts';
import { newVessel } from './vessel.ts';

/** By the number that the kernel keeps; the greater, the less surely known. */
export const BASES: readonly Basis[] = ['measured', 'planned', 'assumed'];
export const MEASURED = 0;
export const PLANNED = 1;
export const ASSUMED = 2;

export type Writable<T> = { -readonly [K in keyof T]: T[K] };

/** One run of the kernel while it goes on. */
export interface Run {
  readonly compiled: Compiled;
  readonly policy: Policy;
  readonly actuals: Actuals | undefined;
  readonly vessels: readonly Vessel[];
  readonly postings: Posting[];
  readonly charges: Map<string, Writable<Charge>>;
  readonly reactions: ReactionRun[];
  readonly gases: GasRelease[];
  readonly observations: ObservationEvent[];
  readonly trace: StepTrace[];
  readonly unquantified: { step: string; name: string; text: string }[];
  readonly diagnostics: Diagnostic[];
  readonly said: Set<string>;
  /** Declared reactions that have run anywhere. */
  readonly everRan: Uint8Array;
  /** mmol (g without a formula) of each substance charged or formed so far. */
  readonly charged: Float64Array;
  readonly formed: Float64Array;
  /** mmol that side reactions have used up. */
  readonly sideUsed: Float64Array;
  passages: Passage[];
  line: ProgramLine;
  lineNumber: number;
  /** Scratch for settling. */
  readonly free: Float64Array;
  readonly target: Uint8Array;
}

export function newRun(compiled: Compiled, policy: Policy, actuals: Actuals | undefined): Run {
  const size = compiled.shelf.substances.length;
  const reactions = compiled.declared.length;
  return {
    compiled,
    policy,
    actuals,
    vessels: compiled.vessels.map((plan) =>
      newVessel(plan, size, reactions, policy.roomTemperature_C),
    ),
    postings: [],
    charges: new Map(),
    reactions: [],
    gases: [],
    observations: [],
    trace: [],
    unquantified: [],
    diagnostics: [],
    said: new Set(),
    everRan: new Uint8Array(reactions),
    charged: new Float64Array(size),
    formed: new Float64Array(size),
    sideUsed: new Float64Array(size),
    passages: [],
    line: compiled.lines[0]!,
    lineNumber: 0,
    free: new Float64Array(size),
    target: new Uint8Array(size),
  };
}

/** The vessel of a name; every name that a move has was found when the program was compiled. */
export function vesselOf(run: Run, id: string): Vessel {
  const v = run.vessels[run.compiled.vesselIndex.get(id) ?? -1];
  if (v === undefined) throw new Error(`no vessel ${id} in this program`);
  return v;
}

/** Writes one posting of a quantity in kernel units. */
export function post(
  run: Run,
  from: string,
  to: string,
  substance: number,
  quantity: number,
  basis: number,
): void {
  const { shelf } = run.compiled;
  run.postings.push({
    step: run.line.stepId,
    from,
    to,
    substance: shelf.substances[substance]!.id,
    amount_mmol: shelf.counted[substance] ? quantity : 0,
    mass_g: quantity * shelf.g[substance]!,
    basis: BASES[basis]!,
  });
}

/** Says something about the sentence that is being enacted. */
export function say(
  run: Run,
  code: string,
  severity: Severity,
  message: string,
  hint: string,
): void {
  run.diagnostics.push(remark(run.line.stepId, run.line.span, code, severity, message, hint));
}

/** The same, once in the whole run for each key. */
export function sayOnce(
  run: Run,
  key: string,
  code: string,
  severity: Severity,
  message: string,
  hint: string,
): void {
  if (run.said.has(key)) return;
  run.said.add(key);
  say(run, code, severity, message, hint);
}

/** Says something that belongs to no sentence, or to a place of its own. */
export function sayAt(
  run: Run,
  step: string,
  span: Span | undefined,
  code: string,
  severity: Severity,
  message: string,
  hint: string,
): void {
  run.diagnostics.push(remark(step, span, code, severity, message, hint));
}

export function nameOf(run: Run, substance: number): string {
  return run.compiled.shelf.substances[substance]!.name;
}
