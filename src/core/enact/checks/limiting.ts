import type { ReactionRun } from '../enactment.ts';
import type { ReactionPlan } from '../reaction-plan.ts';
import type { Run } from '../run.ts';
import { nameOf, say } from '../run.ts';
import { figure } from '../say.ts';

/**
 * The limiting reagent counted from what was charged is not always the one that runs out: acid
 * that activates a metal uses some of it up. Both figures are said.
 */
export function limitingChanged(
  run: Run,
  reaction: ReactionPlan,
  found: ReactionRun,
  first: boolean,
): void {
  if (!first) return;
  const { shelf } = run.compiled;
  let least = Infinity;
  let byCharge = -1;
  for (const { substance, coefficient } of reaction.reactants) {
    const here = found.available.find((a) => a.substance === shelf.substances[substance]!.id);
    if (here?.amount_mmol === Infinity) continue;
    const charged = run.charged[substance]! / coefficient;
    if (!(charged > 0)) return;
    if (charged < least * (1 - 1e-12)) {
      least = charged;
      byCharge = substance;
    }
  }
  const limiting = shelf.byId.get(found.limiting);
  if (byCharge < 0 || limiting === undefined || limiting === byCharge) return;
  if (!(run.sideUsed[limiting]! > 0)) return;
  const left = found.available.find((a) => a.substance === found.limiting);
  say(
    run,
    'limiting-changes',
    'warning',
    `Counted by what was charged, ${nameOf(run, byCharge)} (${figure(run.charged[byCharge]!)} mmol) ` +
      `limits ${reaction.id}. Side reactions have used ${figure(run.sideUsed[limiting]!)} mmol of ` +
      `${nameOf(run, limiting)}, so that it limits now with ${figure(left?.amount_mmol ?? 0)} mmol.`,
    'Take more of it, or base the yield on what is left.',
  );
}
