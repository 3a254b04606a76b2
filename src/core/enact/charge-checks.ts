import type { Diagnostic } from '../diagnostic.ts';
import type { MaterialUse } from '../experiment/step.ts';
import type { EquivalentsBasis } from './equivalents.ts';
import type { Measures, Stated } from './measures.ts';
import { figure, remark } from './say.ts';

/** What one taking comes to by the amount that is believed. */
export interface Reckoned {
  readonly measuredAs: 'mass' | 'volume' | 'amount' | 'equivalents';
  readonly text: string;
  readonly mass_g: number;
  /** Half a unit of the last digit believed, as a share. */
  readonly relativeHalf: number;
  readonly amount_mmol?: number;
}

/**
 * Holds the other amounts of a use against the one that is believed. Two figures agree while they
 * differ by no more than the tolerance (a share) and half a unit in the last digit of each.
 */
export function checkAmounts(
  step: string,
  use: MaterialUse,
  measures: Measures,
  reckoned: Reckoned,
  basis: EquivalentsBasis | undefined,
  tolerance: number,
): Diagnostic[] {
  const found: Diagnostic[] = [];
  const name = use.material?.name ?? use.name;
  const differs = (stated: Stated, computed: number, extra = 0) =>
    Math.abs(stated.value - computed) >
    tolerance * Math.abs(computed) + stated.half + computed * (reckoned.relativeHalf + extra);
  const disagree = (stated: Stated, computed: string) =>
    found.push(
      remark(
        step,
        use.span,
        'amount-disagrees',
        'warning',
        `${name}: ${reckoned.text} comes to ${computed}, but ${stated.text} is written.`,
        `${reckoned.text} is counted. Correct the figure that is wrong, or leave one out.`,
      ),
    );
  const density = use.material?.density_g_mL;
  if (measures.volume_mL !== undefined && reckoned.measuredAs === 'mass' && density !== undefined) {
    const volume_mL = reckoned.mass_g / density;
    if (differs(measures.volume_mL, volume_mL))
      disagree(measures.volume_mL, `${figure(volume_mL)} mL`);
  }
  const mmol = reckoned.amount_mmol;
  const stated = measures.amount_mmol;
  let counted = mmol;
  if (stated !== undefined && mmol !== undefined && reckoned.measuredAs !== 'amount')
    if (differs(stated, mmol)) {
      const purity = stated.value / mmol;
      const neat =
        reckoned.measuredAs === 'mass' &&
        use.material?.strength === undefined &&
        use.material?.purity_percent === undefined;
      if (neat && purity > 0.5 && purity < 1) {
        found.push(impliedPurity(step, use, reckoned, stated, purity));
        counted = stated.value;
      } else disagree(stated, `${figure(mmol)} mmol`);
    }
  if (basis !== undefined && counted !== undefined && reckoned.measuredAs !== 'equivalents')
    found.push(...checkEquivalents(step, use, measures, counted, basis, differs));
  return found;
}

function impliedPurity(
  step: string,
  use: MaterialUse,
  reckoned: Reckoned,
  stated: Stated,
  purity: number,
): Diagnostic {
  const percent = figure(100 * purity);
  const name = use.material?.name ?? use.name;
  return remark(
    step,
    use.span,
    'purity-implied',
    'note',
    `${name}: ${stated.text} in ${reckoned.text} would mean an assay of about ${percent} %.`,
    `It is counted as pure. If the bottle says so, write "assay ${percent} %" for it under Substances.`,
  );
}

function checkEquivalents(
  step: string,
  use: MaterialUse,
  measures: Measures,
  mmol: number,
  basis: EquivalentsBasis,
  differs: (stated: Stated, computed: number, extra?: number) => boolean,
): Diagnostic[] {
  const found: Diagnostic[] = [];
  const check = (stated: Stated | undefined, computed: number, unit: string) => {
    if (stated === undefined || !differs(stated, computed, basis.relativeHalf)) return;
    const name = use.material?.name ?? use.name;
    found.push(
      remark(
        step,
        use.span,
        'equivalents-disagree',
        'warning',
        `${name}: ${figure(mmol)} mmol to ${figure(basis.amount_mmol)} mmol of ${basis.name} is ` +
          `${figure(computed)} ${unit}, but ${stated.text} is written.`,
        'Correct the amount or the equivalents; the amount is counted.',
      ),
    );
  };
  const ratio = mmol / basis.amount_mmol;
  check(measures.equivalents, ratio, 'equiv');
  check(measures.molePercent, 100 * ratio, 'mol%');
  return found;
}
