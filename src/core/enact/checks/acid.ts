import type { PlannedUse } from '../charge.ts';
import type { Run } from '../run.ts';
import { sayOnce } from '../run.ts';
import type { Vessel } from '../vessel.ts';
import { contentsMass_g, quantityIn } from '../vessel.ts';

/** Above this share of its mass the acid counts as concentrated; below that mass it is a drop. */
const CONCENTRATED = 0.7;
const DROP_g = 1;

/** "Acid into water": the other way round spits (common practice). */
export function checkWaterIntoAcid(run: Run, v: Vessel, taken: PlannedUse): void {
  const { shelf } = run.compiled;
  const acid = shelf.byId.get('sulfuric acid');
  if (acid === undefined) return;
  const acid_g = quantityIn(v, acid) * shelf.g[acid]!;
  if (acid_g < DROP_g || acid_g < CONCENTRATED * contentsMass_g(shelf, v)) return;
  const water_g = taken.components
    .filter((part) => shelf.hint[part.substance] === 'water')
    .reduce((sum, part) => sum + part.quantity * shelf.g[part.substance]!, 0);
  const ice = /\bice\b/i.test(taken.use.name);
  if (water_g < 0.5 * taken.mass_g || water_g < DROP_g || ice) return;
  sayOnce(
    run,
    `acid|${v.plan.id}|${run.line.stepId}`,
    'water-into-acid',
    'warning',
    `Water goes into concentrated sulfuric acid in the ${v.plan.name}: it can boil and spit.`,
    "Pour the acid into the water, slowly, with cooling and stirring. The supplier's safety data sheet and local rules come first.",
  );
}
