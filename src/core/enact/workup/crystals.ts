import type { Run } from '../run.ts';
import { gather } from '../settle.ts';
import { isOrganicSolid } from '../shelf.ts';
import type { Vessel } from '../vessel.ts';
import { NOTHING, SOLID, quantityIn } from '../vessel.ts';

/** Solids are judged cold: nobody collects crystals from a boiling flask. */
export function coldTemperature_C(run: Run, v: Vessel): number {
  return Math.min(v.temperature_C, run.policy.roomTemperature_C);
}

/** Brings a substance out as a solid that stays one until a liquid comes to it or it is heated. */
export function bringOut(run: Run, v: Vessel, i: number): void {
  gather(run, v, i, SOLID);
  v.pinned[i] = v.held[SOLID]![i]!;
}

/** Whether the author can be after this as a solid: organic and solid, or a product salt. */
export function comesOut(run: Run, v: Vessel, i: number): boolean {
  if (quantityIn(v, i) <= NOTHING) return false;
  const { shelf, isProduct } = run.compiled;
  if (isOrganicSolid(shelf, i, coldTemperature_C(run, v))) return true;
  return isProduct[i] === 1 && shelf.hint[i] === 'salt';
}
