import type { SplitRule } from '../../experiment/move.ts';
import { checkFill } from '../checks/fill.ts';
import { RULES } from '../rules.ts';
import type { Run } from '../run.ts';
import { nameOf, sayOnce } from '../run.ts';
import { gatherLoose } from '../settle.ts';
import { isLiquid } from '../shelf.ts';
import type { Vessel } from '../vessel.ts';
import { NOTHING, VAPOUR, contentsVolume_mL, quantityIn } from '../vessel.ts';

type Evaporate = Extract<SplitRule, { rule: 'evaporate' }>;

/**
 * What leaves as vapour: liquids that are no salts and boil no higher than a limit, water, and
 * gases dissolved in them. What the author is making stays, unless it boils below the solvents.
 */
export function evaporate(run: Run, v: Vessel, rule: Evaporate): void {
  const { shelf, isKept } = run.compiled;
  checkFill(run, v, 'evaporate');
  const limit_C = rule.upTo_C ?? RULES.evaporateLimit_C;
  const named = namedOrLower(run, v, rule.only);
  const leaving: number[] = [];
  const kept: number[] = [];
  let highest_C = -Infinity;
  for (let i = 0; i < v.pinned.length; i++) {
    if (quantityIn(v, i) <= NOTHING || !isVolatile(run, v, i, limit_C)) continue;
    if (isKept[i]) kept.push(i);
    else if (named(i)) {
      leaving.push(i);
      if (!shelf.gaseous[i]) highest_C = Math.max(highest_C, boilsAt_C(run, i));
    }
  }
  for (const i of kept) if (shelf.boil_C[i]! < highest_C) leaving.push(i);
  // Bound water and crystals have no vapour; only what is loose leaves.
  const share = shareToLeave(run, v, leaving, rule);
  for (const i of leaving) gatherLoose(run, v, i, VAPOUR, share);
  warnOfVolatileProduct(run, v, highest_C);
}

/** What share of the volatile matter goes, where the author stops at a volume. */
function shareToLeave(run: Run, v: Vessel, leaving: readonly number[], rule: Evaporate): number {
  const { shelf } = run.compiled;
  if (rule.leaving_mL === undefined && rule.leavingShare === undefined) return 1;
  const all_mL = contentsVolume_mL(shelf, v);
  const target_mL = rule.leaving_mL ?? all_mL * rule.leavingShare!;
  let volatile_mL = 0;
  for (const i of leaving)
    volatile_mL +=
      (quantityIn(v, i) * shelf.g[i]!) / (shelf.density_g_mL[i]! > 0 ? shelf.density_g_mL[i]! : 1);
  return volatile_mL > 0 ? Math.min(1, Math.max(0, (all_mL - target_mL) / volatile_mL)) : 1;
}

/** "Evaporate the ethanol": what is named and what boils lower; where it is not there, all solvents. */
function namedOrLower(
  run: Run,
  v: Vessel,
  only: readonly string[] | undefined,
): (i: number) => boolean {
  const { shelf } = run.compiled;
  let upTo_C = -Infinity;
  for (const id of only ?? []) {
    const i = shelf.substances.findIndex((s) => s.id === id);
    if (i >= 0 && quantityIn(v, i) > NOTHING) upTo_C = Math.max(upTo_C, boilsAt_C(run, i));
  }
  if (upTo_C === -Infinity) return () => true;
  return (i) => shelf.gaseous[i] === true || boilsAt_C(run, i) <= upTo_C;
}

function isVolatile(run: Run, v: Vessel, i: number, limit_C: number): boolean {
  const { shelf } = run.compiled;
  const hint = shelf.hint[i];
  if (hint === 'water' || shelf.gaseous[i]) return true;
  if (hint === 'salt' || hint === 'insoluble') return false;
  return isLiquid(shelf, i, v.temperature_C) && shelf.boil_C[i]! <= limit_C;
}

function boilsAt_C(run: Run, i: number): number {
  const boil_C = run.compiled.shelf.boil_C[i]!;
  return Number.isNaN(boil_C) ? -Infinity : boil_C;
}

function warnOfVolatileProduct(run: Run, v: Vessel, highest_C: number): void {
  const { shelf, isProduct } = run.compiled;
  if (highest_C === -Infinity) return;
  for (let i = 0; i < v.pinned.length; i++) {
    if (!isProduct[i] || quantityIn(v, i) <= NOTHING) continue;
    if (!(shelf.boil_C[i]! < highest_C + RULES.volatileGap_C)) continue;
    sayOnce(
      run,
      `volatile|${i}|${v.plan.id}`,
      'product-volatile',
      'warning',
      `${nameOf(run, i)} boils at ${Math.round(shelf.boil_C[i]!)} °C, close to what is taken off here ` +
        `(up to ${Math.round(highest_C)} °C): some of it goes along.`,
      'Take the solvent off at a lower temperature, through a column, or weigh before all of it is gone.',
    );
  }
}
