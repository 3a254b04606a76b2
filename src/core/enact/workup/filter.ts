import type { SplitRule } from '../../experiment/move.ts';
import { RULES } from '../rules.ts';
import type { Run } from '../run.ts';
import type { Vessel } from '../vessel.ts';
import { NOTHING, SOLID, phaseMass_g, quantityIn } from '../vessel.ts';
import { bringOut, comesOut } from './crystals.ts';

type Filter = Extract<SplitRule, { rule: 'filter' }>;

/**
 * A filter holds back what is solid. Where the author keeps the solid, organic substances that
 * are solid when cold are taken to be out of solution, and so is a product that is a salt; where
 * she keeps the liquid, only what settling left solid stays behind. Where she does not say, a
 * mixture with solids in it (a drying agent, a metal, a precipitate) gives up those alone, and a
 * clear solution its crystals.
 */
export function filter(run: Run, v: Vessel, rule: Filter): void {
  const size = v.pinned.length;
  const { shelf, unexplained } = run.compiled;
  const solid_g = () =>
    phaseMass_g(shelf, v, SOLID) - v.held[SOLID]![unexplained]! * shelf.g[unexplained]!;
  const clear = solid_g() <= RULES.leftover_g;
  if (rule.keep === 'solid' || (rule.keep === 'both' && clear))
    for (let i = 0; i < size; i++) if (comesOut(run, v, i)) bringOut(run, v, i);
  if (rule.keep === 'solid' && solid_g() <= RULES.leftover_g) bringOutSalt(run, v);
  for (let i = 0; i < size; i++) v.pinned[i] = v.held[SOLID]![i]!;
}

/** The author sees a solid where none is known: an organic salt that a declared reaction has formed. */
function bringOutSalt(run: Run, v: Vessel): void {
  const { shelf, declared } = run.compiled;
  for (const { products } of declared)
    for (const { substance } of products) {
      const organic = shelf.substances[substance]!.composition?.counts.has('C') === true;
      if (shelf.hint[substance] === 'salt' && organic && quantityIn(v, substance) > NOTHING)
        bringOut(run, v, substance);
    }
}
