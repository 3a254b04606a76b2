import type { Diagnostic } from '../../../diagnostic.ts';
import type { XUnit, YUnit } from '../trace.ts';
import { warning } from './finding.ts';
import { hangsFromCeiling, ordered, quantileOf, risesFromFloor } from './ordinate-scale.ts';

/**
 * The unit of an axis that nobody named, from its range, and only where no other is likely:
 * mid-infrared wavenumbers reach beyond 1500 and stay below 15 000. Common practice.
 */
export function xUnitFromValues(x: Float64Array): XUnit {
  const sorted = ordered(x);
  const [least = Number.NaN, greatest = Number.NaN] = [sorted[0], sorted.at(-1)];
  const isWavenumber = least >= 150 && greatest >= 1500 && greatest <= 15_000;
  return isWavenumber && greatest - least >= 500 ? '1/cm' : 'unknown';
}

/** What the ordinates are that nobody named, from where they lie and which way the bands point. */
export function yUnitFromValues(y: Float64Array): YUnit {
  const sorted = ordered(y);
  const [low, high] = [quantileOf(sorted, 0.01), quantileOf(sorted, 0.99)];
  if (hangsFromCeiling(sorted) && ((high > 50 && high < 130) || (high > 0.5 && high < 1.3)))
    return low > -0.1 * high ? 'transmittance' : 'unknown';
  if (risesFromFloor(sorted) && low > -0.5 && high > 0.001 && high < 6) return 'absorbance';
  return 'unknown';
}

const X_NAMES: Partial<Record<XUnit, string>> = { '1/cm': 'wavenumbers in cm⁻¹' };

/** Said of every unit that was taken from the values or stayed open. */
export function unitWarnings(
  x: { readonly unit: XUnit; readonly isNamed: boolean },
  y: { readonly unit: YUnit; readonly isNamed: boolean },
): Diagnostic[] {
  const taken: string[] = [];
  const open: string[] = [];
  if (!x.isNamed && x.unit !== 'unknown') taken.push(`the axis as ${X_NAMES[x.unit] ?? x.unit}`);
  if (!y.isNamed && y.unit !== 'unknown') taken.push(`the values as ${y.unit}`);
  if (x.unit === 'unknown') open.push('of the axis');
  if (y.unit === 'unknown') open.push('of the values');
  const warnings: Diagnostic[] = [];
  if (taken.length > 0)
    warnings.push(
      warning('units-taken', {
        message: `The table does not name its units. By their range, ${taken.join(' and ')} were taken.`,
        hint: 'Check it, or name the columns.',
      }),
    );
  if (open.length > 0)
    warnings.push(
      warning('units-unknown', {
        message: `The unit ${open.join(' and ')} is not known.`,
        hint: 'Name the columns: “wavenumber (1/cm)”, “absorbance”, “transmittance (%)”.',
      }),
    );
  return warnings;
}
