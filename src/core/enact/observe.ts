import type { Move } from '../experiment/move.ts';
import { netKey } from './actuals.ts';
import type { ObservationEvent } from './enactment.ts';
import type { Run, Writable } from './run.ts';
import { MEASURED, post, say, vesselOf } from './run.ts';
import { figure } from './say.ts';
import { settle } from './settle.ts';
import type { Vessel } from './vessel.ts';
import { NOTHING, SOLID, VAPOUR, contentsMass_g, phaseMass_g } from './vessel.ts';

/** A balance's last digit: differences below it are none. */
const BALANCE_g = 1e-9;

/**
 * Something is weighed or looked at. On a bench run a weighing is an assertion: what is missing
 * goes to `loss/<step>`, every component in proportion; what is too much comes from
 * `unexplained/<step>` as mass without a formula, and is said.
 */
export function observe(run: Run, move: Extract<Move, { kind: 'observe' }>): void {
  const v = vesselOf(run, move.vessel);
  settle(run, v);
  v.touchedInLine = run.lineNumber;
  const { shelf, isProduct } = run.compiled;
  const expected_g = contentsMass_g(shelf, v) + phaseMass_g(shelf, v, VAPOUR);
  const event: Writable<ObservationEvent> = {
    step: run.line.stepId,
    vessel: v.plan.id,
    observation: move.observation,
    expected_g,
  };
  if (move.detail !== undefined) event.detail = move.detail;
  run.observations.push(event);
  if (move.observation !== 'net' && move.observation !== 'gross') return;
  for (let i = 0; i < isProduct.length; i++)
    if (isProduct[i] && v.held.some((held) => held[i]! > NOTHING)) v.weighed = true;
  const measured_g = run.actuals?.nets.get(netKey(run.line.stepId, v.plan.id));
  if (measured_g === undefined || !(measured_g >= 0) || measured_g === Infinity) return;
  event.measured_g = measured_g;
  v.weighed = true;
  if (measured_g < expected_g - BALANCE_g) postLoss(run, v, measured_g / expected_g);
  else if (measured_g > expected_g + BALANCE_g) postUnexplained(run, v, measured_g, expected_g);
  v.basis.fill(MEASURED);
}

function postLoss(run: Run, v: Vessel, share: number): void {
  const account = `loss/${run.line.stepId}`;
  for (let phase = SOLID; phase <= VAPOUR; phase++) {
    const held = v.held[phase]!;
    for (let i = 0; i < held.length; i++) {
      if (held[i]! <= 0) continue;
      const kept = held[i]! * share;
      post(run, v.plan.accounts[phase]!, account, i, held[i]! - kept, MEASURED);
      held[i] = kept;
    }
  }
  for (let i = 0; i < v.pinned.length; i++) v.pinned[i]! *= share;
  v.dirty = true;
}

function postUnexplained(run: Run, v: Vessel, measured_g: number, expected_g: number): void {
  const { unexplained, shelf } = run.compiled;
  const extra_g = measured_g - expected_g;
  const quantity = extra_g / shelf.g[unexplained]!;
  const account = `unexplained/${run.line.stepId}`;
  post(run, account, v.plan.accounts[SOLID]!, unexplained, quantity, MEASURED);
  v.held[SOLID]![unexplained]! += quantity;
  v.everHeld = true;
  v.dirty = true;
  say(
    run,
    'unexplained-mass',
    'warning',
    `The ${v.plan.name} weighs ${figure(measured_g)} g net, and no more than ${figure(expected_g)} g ` +
      `can be there: ${figure(extra_g)} g is unexplained.`,
    'Was it wet, not fully evaporated, or not tared? Dry it and weigh again.',
  );
}
