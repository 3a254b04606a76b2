import type { Run } from '../run.ts';
import { sayOnce } from '../run.ts';
import { figure } from '../say.ts';
import type { Vessel } from '../vessel.ts';
import { contentsVolume_mL } from '../vessel.ts';

const WHEN: Record<'reflux' | 'funnel' | 'evaporate' | 'other', string> = {
  reflux: ' at reflux',
  funnel: '',
  evaporate: ' for evaporation',
  other: '',
};

/** Says so when a vessel holds more than its use allows, or, at reflux, too little. */
export function checkFill(run: Run, v: Vessel, use: 'reflux' | 'evaporate' | 'other'): void {
  const capacity_mL = v.plan.capacity_mL;
  if (capacity_mL === undefined || !(capacity_mL > 0)) return;
  const volume_mL = contentsVolume_mL(run.compiled.shelf, v);
  const share = volume_mL / capacity_mL;
  const kind =
    use === 'other' && v.plan.shape.endsWith('funnel') && v.plan.shape !== 'addition funnel'
      ? 'funnel'
      : use;
  const limit = run.policy.fillLimit[kind];
  const holds = `The ${v.plan.name} (${figure(capacity_mL)} mL) holds about ${figure(volume_mL)} mL`;
  if (share > 1)
    sayOnce(
      run,
      `overfull!${v.plan.id}`,
      'overfull',
      'error',
      `${holds}: more than it can.`,
      'Take a larger vessel, or divide the mixture.',
    );
  else if (share > limit)
    sayOnce(
      run,
      `overfull${kind}${v.plan.id}`,
      'overfull',
      'warning',
      `${holds}${WHEN[kind]}, ${figure(100 * share)} % of it; ${figure(100 * limit)} % is the usual limit.`,
      'Take a larger vessel, or divide the mixture.',
    );
  else if (use === 'reflux' && share < run.policy.fillFloor && !v.unknown)
    sayOnce(
      run,
      `underfull${v.plan.id}`,
      'underfull',
      'warning',
      `${holds} at reflux, only ${figure(100 * share)} % of it: it may boil dry.`,
      'Take a smaller flask, or more solvent.',
    );
}
