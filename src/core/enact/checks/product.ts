import type { Whither } from '../../experiment/move.ts';
import { RULES } from '../rules.ts';
import type { Run } from '../run.ts';
import { nameOf, sayOnce } from '../run.ts';
import { figure } from '../say.ts';
import type { Vessel } from '../vessel.ts';

/** All of a substance that the run has seen so far, in kernel units. */
export function seen(run: Run, i: number): number {
  return run.charged[i]! + run.formed[i]!;
}

/** Says so when a good part of the declared product goes to waste or into the air. */
export function productLost(run: Run, v: Vessel, i: number, quantity: number, to: Whither): void {
  if (!run.compiled.isProduct[i]) return;
  const all = seen(run, i);
  if (!(all > 0) || quantity <= RULES.productShare * all) return;
  const share = figure((100 * quantity) / all);
  const where = to.kind === 'air' ? 'leaves with the vapour' : 'is thrown away';
  sayOnce(
    run,
    `lost|${i}|${run.line.stepId}`,
    'product-discarded',
    'warning',
    `${share} % of the ${nameOf(run, i)} ${where} here, out of the ${v.plan.name}.`,
    'Check which layer or which part holds the product.',
  );
}
