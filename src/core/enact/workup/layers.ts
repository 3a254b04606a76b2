import { assignPhases } from '../phases.ts';
import type { Run } from '../run.ts';
import { say, sayOnce } from '../run.ts';
import { figure } from '../say.ts';
import { resort } from '../settle.ts';
import { isLiquid } from '../shelf.ts';
import type { Vessel } from '../vessel.ts';
import {
  AQUEOUS,
  NOTHING,
  ORGANIC,
  phaseDensity_g_mL,
  phaseMass_g,
  quantityIn,
} from '../vessel.ts';

/**
 * Two liquid layers: salts, water and water-miscible liquids in the aqueous one, other organics in
 * the organic one, wholly. Solids that dissolve in neither stay between them.
 */
export function layers(run: Run, v: Vessel): void {
  const { shelf } = run.compiled;
  for (let i = 0; i < run.free.length; i++) run.free[i] = quantityIn(v, i) - v.pinned[i]!;
  assignPhases(shelf, run.free, v.temperature_C, true, run.target);
  resort(run, v);
  const organic = phaseMass_g(shelf, v, ORGANIC) > NOTHING;
  const aqueous = phaseMass_g(shelf, v, AQUEOUS) > NOTHING;
  if (organic && aqueous) checkDensities(run, v);
  else if (organic && !v.unknown && organicLiquids(run, v) > 1)
    sayOnce(
      run,
      `organic-layers|${v.plan.id}|${run.line.stepId}`,
      'organic-layers',
      'warning',
      `The ${v.plan.name} holds no aqueous layer: its organic liquids mix and are one layer.`,
      'Add the water, or leave the separation out.',
    );
}

function organicLiquids(run: Run, v: Vessel): number {
  let count = 0;
  const held = v.held[ORGANIC]!;
  for (let i = 0; i < held.length; i++)
    if (held[i]! > NOTHING && isLiquid(run.compiled.shelf, i, v.temperature_C)) count++;
  return count;
}

function checkDensities(run: Run, v: Vessel): void {
  const { shelf } = run.compiled;
  const organic = phaseDensity_g_mL(shelf, v, ORGANIC);
  const aqueous = phaseDensity_g_mL(shelf, v, AQUEOUS);
  if (organic === undefined || aqueous === undefined) return;
  if (Math.abs(organic - aqueous) >= run.policy.layerDensityGap_g_mL) return;
  sayOnce(
    run,
    `layers-close|${v.plan.id}`,
    'layers-close',
    'warning',
    `The layers in the ${v.plan.name} have nearly the same density (organic ${figure(organic)}, ` +
      `aqueous ${figure(aqueous)} g/mL): they may not part, or not the way expected.`,
    'More solvent, or salt in the water, sets them apart; test a drop with water.',
  );
}

/**
 * The phase that lies above or below, by density. Where the organic layer's density is not known
 * it is taken to float. With one liquid layer only, that one is meant by either word.
 */
export function chooseLayer(run: Run, v: Vessel, which: 'upper' | 'lower'): number[] {
  const { shelf } = run.compiled;
  const organic = phaseMass_g(shelf, v, ORGANIC) > NOTHING;
  const aqueous = phaseMass_g(shelf, v, AQUEOUS) > NOTHING;
  if (!organic || !aqueous) {
    if ((organic || aqueous) && !v.unknown)
      sayOnce(
        run,
        `one-layer|${v.plan.id}|${run.line.stepId}`,
        'one-layer',
        'note',
        `The ${v.plan.name} holds one liquid layer only: it is taken for the ${which} one.`,
        'Check what was added, and which layers are meant.',
      );
    return [ORGANIC, AQUEOUS];
  }
  const organicDensity = phaseDensity_g_mL(shelf, v, ORGANIC);
  if (organicDensity === undefined) orderAssumed(run, v);
  const aqueousDensity = phaseDensity_g_mL(shelf, v, AQUEOUS) ?? 1;
  const organicFloats = organicDensity === undefined || organicDensity < aqueousDensity;
  return organicFloats === (which === 'upper') ? [ORGANIC] : [AQUEOUS];
}

function orderAssumed(run: Run, v: Vessel): void {
  if (run.said.has(`layer-order|${v.plan.id}`)) return;
  run.said.add(`layer-order|${v.plan.id}`);
  say(
    run,
    'layer-order-assumed',
    'note',
    `The density of the organic layer in the ${v.plan.name} is not known: it is taken to be the upper one.`,
    'Give its densities under Substances, or say "organic layer" and "aqueous layer".',
  );
}
