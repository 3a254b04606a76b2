import type { Move } from '../experiment/move.ts';
import { checkFill } from './checks/fill.ts';
import type { Run } from './run.ts';
import { nameOf, say, sayOnce, vesselOf } from './run.ts';
import { settle } from './settle.ts';
import { isLiquid } from './shelf.ts';
import type { Vessel } from './vessel.ts';
import { quantityIn } from './vessel.ts';

type WaitMove = Extract<Move, { kind: 'wait' }>;

/** A degree of grace before "above the boiling point" is said. */
const BOILING_GRACE_C = 1;

/** Time passes at a temperature. Heat dissolves crystals; a boiling flask is as hot as its solvent. */
export function wait(run: Run, move: WaitMove): void {
  const v = vesselOf(run, move.vessel);
  settle(run, v);
  v.touchedInLine = run.lineNumber;
  if (move.closed !== undefined) v.closed = move.closed;
  // An evaporation opens the flask; a still opens into its receiver, not into the room
  if (run.line.verb === 'evaporate') v.closed = false;
  v.refluxing = move.heating === 'reflux';
  const heated = move.heating !== 'none' && run.line.verb !== 'distil';
  if (v.closed && heated) closedHeated(run, v);
  const solvent = mainSolvent(run, v);
  if (run.line.slots.bath === 'flame') flammable(run, v, solvent);
  const boil_C = solvent < 0 ? NaN : run.compiled.shelf.boil_C[solvent]!;
  const asked_C = move.temperature_C;
  if (asked_C !== undefined && asked_C > boil_C + BOILING_GRACE_C && !v.refluxing && !v.closed)
    sayOnce(
      run,
      `boiling|${v.plan.id}|${run.line.stepId}`,
      'above-boiling',
      'warning',
      `${asked_C} °C is above the boiling point of ${nameOf(run, solvent)} (${Math.round(boil_C)} °C), ` +
        `and the ${v.plan.name} has no condenser.`,
      'Reflux it, or heat less; if the figure is that of the bath, say what the flask should reach.',
    );
  setTemperature(run, v, move, asked_C, boil_C);
  if (move.heating !== 'none') {
    const { capacity_g_g, hint } = run.compiled.shelf;
    for (let i = 0; i < v.pinned.length; i++)
      if (hint[i] !== 'water' && !(capacity_g_g[i]! > 0)) v.pinned[i] = 0;
  }
  if (v.refluxing) checkFill(run, v, 'reflux');
  v.dirty = true;
}

function setTemperature(
  run: Run,
  v: Vessel,
  move: WaitMove,
  asked_C: number | undefined,
  boil_C: number,
): void {
  let reached_C = asked_C ?? (move.heating === 'reflux' ? boil_C : v.temperature_C);
  if (reached_C > boil_C && !v.closed) reached_C = boil_C;
  if (Number.isFinite(reached_C)) v.temperature_C = reached_C;
  else if (move.heating === 'none') v.temperature_C = run.policy.roomTemperature_C;
}

/** Volatile organic liquids catch fire at a flame (common practice: none below 100 °C near one). */
function flammable(run: Run, v: Vessel, solvent: number): void {
  const { shelf } = run.compiled;
  if (solvent < 0 || shelf.hint[solvent] === 'water' || !(shelf.boil_C[solvent]! < 100)) return;
  sayOnce(
    run,
    `flame|${v.plan.id}`,
    'flame-flammable',
    'warning',
    `${nameOf(run, solvent)} in the ${v.plan.name} is heated with a flame: its vapour can catch fire.`,
    'Use a water bath, a mantle or a hot plate, and put out flames near by. The safety data sheet and local rules come first.',
  );
}

/** The liquid that makes up most of the contents, of those whose boiling point is known. */
function mainSolvent(run: Run, v: Vessel): number {
  const { shelf } = run.compiled;
  let most_g = 0;
  let found = -1;
  for (let i = 0; i < v.pinned.length; i++) {
    const mass_g = quantityIn(v, i) * shelf.g[i]!;
    if (mass_g <= most_g || !isLiquid(shelf, i, v.temperature_C)) continue;
    most_g = mass_g;
    found = i;
  }
  return found >= 0 && Number.isNaN(shelf.boil_C[found]!) ? -1 : found;
}

function closedHeated(run: Run, v: Vessel): void {
  say(
    run,
    'closed-heated',
    'error',
    `The ${v.plan.name} is heated while it is closed: never heat a closed system.`,
    'Leave it open through a condenser or a bubbler. Vessels made for pressure need the ' +
      'responsible person, and are not judged here.',
  );
}
