import type { SubstanceTable } from '../chemistry/substance.ts';
import type { Move } from '../experiment/move.ts';
import type { Substance } from '../chemistry/substance.ts';
import type { Actuals } from './actuals.ts';
import { checkFinal } from './checks/final.ts';
import { checkCarbonateWash } from './checks/wash.ts';
import { checkWait } from './checks/waits.ts';
import type { Compiled } from './compile.ts';
import { compile } from './compile.ts';
import type { Enactment } from './enactment.ts';
import { observe } from './observe.ts';
import type { Policy } from './policy.ts';
import { DEFAULT_POLICY } from './policy.ts';
import type { Program } from './program.ts';
import { react } from './react.ts';
import type { Run } from './run.ts';
import { newRun, vesselOf } from './run.ts';
import { settle } from './settle.ts';
import { takeFromStock } from './stock.ts';
import { duration_min, vesselState } from './trace.ts';
import { transfer } from './transfer.ts';
import { wait } from './wait.ts';
import { split } from './workup/split.ts';

const MOVES: {
  readonly [K in Move['kind']]: (run: Run, move: Extract<Move, { kind: K }>) => void;
} = {
  open: (run, move) => {
    const v = vesselOf(run, move.vessel);
    v.closed = false;
    if (!v.everHeld) v.temperature_C = run.policy.roomTemperature_C;
  },
  move: (run, move) => (move.from === 'stock' ? takeFromStock(run, move) : transfer(run, move)),
  split,
  react,
  observe,
  wait,
};

/**
 * Enacts a program into a ledger of matter: the plan, or with `actuals` one bench, its measured
 * charges and weighings in place of the planned ones. Never throws on what a document says; what
 * is wrong with that comes back as diagnostics. Keep the program object from run to run: what
 * every run shares is worked out once for each.
 */
export function enact(
  program: Program,
  table: SubstanceTable,
  policy: Policy = DEFAULT_POLICY,
  actuals?: Actuals,
): Enactment {
  const compiled = compile(program, table, policy);
  const run = newRun(compiled, policy, actuals);
  let clock_min = 0;
  for (let n = 0; n < compiled.lines.length; n++) {
    run.line = compiled.lines[n]!;
    run.lineNumber = n;
    for (const move of run.line.moves) {
      postArrivals(run, move);
      MOVES[move.kind](run, move as never);
    }
    finishLine(run);
    if (policy.trace) clock_min += traceLine(run, clock_min);
  }
  checkFinal(run);
  return {
    kind: actuals === undefined ? 'plan' : 'bench',
    postings: run.postings,
    charges: [...run.charges.values()],
    reactions: run.reactions,
    gases: run.gases,
    observations: run.observations,
    trace: run.trace,
    final: run.vessels.filter((v) => v.everHeld).map((v) => vesselState(run, v)),
    substances: substancesOf(compiled),
    unquantified: run.unquantified,
    diagnostics: run.diagnostics,
  };
}

/**
 * Materials that a sentence charges one after another arrive together: a salt with its water goes
 * into solution at once. Any other move finds what came before it posted.
 */
function postArrivals(run: Run, next: Move): void {
  const charged =
    next.kind === 'move' && next.from === 'stock' && next.to.kind === 'vessel'
      ? next.to.vessel
      : undefined;
  for (const v of run.vessels) if (v.incoming.length > 0 && v.plan.id !== charged) settle(run, v);
}

/** At the end of a sentence, what a split has parted and nobody has taken away mixes again. */
function finishLine(run: Run): void {
  checkWait(run);
  for (const v of run.vessels) {
    if (v.sorted) {
      v.sorted = false;
      v.dirty = true;
    }
    if (v.dirty) settle(run, v);
    v.refluxing = false;
  }
  checkCarbonateWash(run);
}

function traceLine(run: Run, start_min: number): number {
  const minutes = duration_min(run.line);
  run.trace.push({
    step: run.line.stepId,
    start_min,
    duration_min: minutes,
    passages: run.passages,
    vessels: run.vessels
      .filter((v) => v.touchedInLine === run.lineNumber)
      .map((v) => vesselState(run, v)),
  });
  run.passages = [];
  return minutes;
}

const known = new WeakMap<Compiled, ReadonlyMap<string, Substance>>();

function substancesOf(compiled: Compiled): ReadonlyMap<string, Substance> {
  let map = known.get(compiled);
  if (map === undefined) {
    map = new Map(compiled.shelf.substances.map((s) => [s.id, s]));
    known.set(compiled, map);
  }
  return map;
}
