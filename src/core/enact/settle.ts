import { checkFill } from './checks/fill.ts';
import { assignPhases } from './phases.ts';
import type { Run } from './run.ts';
import { ASSUMED, PLANNED, post } from './run.ts';
import type { Vessel } from './vessel.ts';
import { NOTHING, SOLID, VAPOUR, quantityIn } from './vessel.ts';

/** R in L kPa/(mmol K): CODATA 2018 molar gas constant. */
const GAS_CONSTANT = 8.314462618e-3;

/** Volume (L) of an ideal gas, n R T / p, at the policy's room temperature and pressure. */
export function gasVolume_L(amount_mmol: number, room_C: number, pressure_kPa: number): number {
  return (amount_mmol * GAS_CONSTANT * (room_C + 273.15)) / pressure_kPa;
}

/**
 * Sorts what a vessel holds into phases, new matter first; what changes its phase is posted as
 * assumed. Gases leave for the air unless the vessel is closed or a reaction is to take them up.
 * A vessel that a split has just sorted is left alone until something new comes.
 */
export function settle(run: Run, v: Vessel): void {
  if (!v.dirty || (v.sorted && v.incoming.length === 0)) return;
  v.dirty = false;
  v.sorted = false;
  const { shelf } = run.compiled;
  const { free, target } = run;
  const size = free.length;
  for (let i = 0; i < size; i++) free[i] = quantityIn(v, i) - v.pinned[i]!;
  for (const part of v.incoming) free[part.substance]! += part.quantity;
  assignPhases(shelf, free, v.temperature_C, false, target);
  const arrived = v.incoming.length > 0;
  if (arrived) receive(run, v);
  resort(run, v);
  releaseGases(run, v);
  v.touchedInLine = run.lineNumber;
  if (arrived) checkFill(run, v, 'other');
}

function receive(run: Run, v: Vessel): void {
  for (const { from, substance, quantity, basis } of v.incoming) {
    const phase = run.target[substance]!;
    post(run, from, v.plan.accounts[phase]!, substance, quantity, basis);
    const before = quantityIn(v, substance);
    v.basis[substance] = before > NOTHING ? Math.max(v.basis[substance]!, basis) : basis;
    v.held[phase]![substance]! += quantity;
  }
  v.incoming = [];
}

/** Moves what stands in another phase than `run.target` says, pinned solids apart. */
export function resort(run: Run, v: Vessel): void {
  const { target } = run;
  for (let phase = SOLID; phase <= VAPOUR; phase++) {
    const held = v.held[phase]!;
    for (let i = 0; i < held.length; i++) {
      if (held[i]! <= 0 || target[i] === phase) continue;
      const loose = phase === SOLID ? held[i]! - v.pinned[i]! : held[i]!;
      if (loose > 0) shift(run, v, i, phase, target[i]!, loose);
    }
  }
}

/** Posts a quantity from one phase of a vessel to another, as assumed. */
export function shift(
  run: Run,
  v: Vessel,
  i: number,
  from: number,
  to: number,
  quantity: number,
): void {
  const all = quantity >= v.held[from]![i]!;
  const moved = all ? v.held[from]![i]! : quantity;
  if (moved <= 0 || from === to) return;
  post(run, v.plan.accounts[from]!, v.plan.accounts[to]!, i, moved, ASSUMED);
  v.held[from]![i] = all ? 0 : v.held[from]![i]! - moved;
  v.held[to]![i]! += moved;
  if (from === SOLID) v.pinned[i] = Math.min(v.pinned[i]!, v.held[SOLID]![i]!);
}

/** Brings all of a substance that stands in a vessel into one phase. */
export function gather(run: Run, v: Vessel, i: number, to: number): void {
  for (let phase = SOLID; phase <= VAPOUR; phase++)
    if (phase !== to && v.held[phase]![i]! > 0) shift(run, v, i, phase, to, v.held[phase]![i]!);
}

/** The same (or a share of it), but for crystals and bound water, which stay. */
export function gatherLoose(run: Run, v: Vessel, i: number, to: number, share = 1): void {
  for (let phase = SOLID; phase <= VAPOUR; phase++) {
    const loose = (v.held[phase]![i]! - (phase === SOLID ? v.pinned[i]! : 0)) * share;
    if (phase !== to && loose > 0) shift(run, v, i, phase, to, loose);
  }
}

function releaseGases(run: Run, v: Vessel): void {
  if (v.closed) return;
  const { shelf, isProduct } = run.compiled;
  // A cold trap holds the gas that the author is after
  const trapped = v.plan.shape === 'trap';
  const vapour = v.held[VAPOUR]!;
  for (let i = 0; i < vapour.length; i++) {
    const quantity = vapour[i]!;
    if (quantity <= 0 || !shelf.gaseous[i] || v.gasWaits[i] || (trapped && isProduct[i])) continue;
    post(run, v.plan.accounts[VAPOUR]!, 'air', i, quantity, Math.max(PLANNED, v.basis[i]!));
    vapour[i] = 0;
    if (quantity < NOTHING || !shelf.counted[i]) continue;
    const { roomTemperature_C, pressure_kPa } = run.policy;
    run.gases.push({
      step: run.line.stepId,
      vessel: v.plan.id,
      substance: shelf.substances[i]!.id,
      amount_mmol: quantity,
      volume_L: gasVolume_L(quantity, roomTemperature_C, pressure_kPa),
    });
  }
}
