import type { Uncertain } from '../../quantity/uncertain.ts';
import { divide, fromHalfWidth, measured, multiply, subtract } from '../../quantity/uncertain.ts';
import type { RotationEntered } from './schema.ts';

/** Half-width of a reading of a teaching instrument, degrees: common practice. */
const READING_DEG = 0.05;
/** Relative u of a tube, of a solution made by weighing into a flask, of a density (common practice). */
const LENGTH_U = 0.001;
const CONCENTRATION_U = 0.01;
const DENSITY_U = 0.002;

/** In g/mL; of a neat liquid its density. */
export function concentrationOf(sample: RotationEntered['sample']): number {
  if (sample.kind === 'neat') return sample.density_g_mL;
  return sample.unit === 'g/mL' ? sample.concentration : sample.concentration / 100;
}

/**
 * [α] in degrees mL g⁻¹ dm⁻¹: α/(l·c), α in degrees, l in dm, c in g/mL (IUPAC Gold Book, specific
 * optical rotatory power, in the units of the trade).
 */
export function specificRotation(alpha_deg: number, length_dm: number, c_g_mL: number): number {
  return alpha_deg / (length_dm * c_g_mL);
}

/** The rotation of the sample itself, less the blank. */
export function ownRotation(entered: RotationEntered): Uncertain {
  const u = fromHalfWidth(entered.tolerance_deg ?? READING_DEG, 'rectangular');
  return subtract(
    measured('reading', entered.observed_deg, u),
    measured('blank', entered.blank_deg ?? 0, u),
  );
}

export function specificOf(entered: RotationEntered): Uncertain {
  const { length_dm, sample } = entered;
  const c_g_mL = concentrationOf(sample);
  const relative = sample.kind === 'neat' ? DENSITY_U : CONCENTRATION_U;
  return divide(
    ownRotation(entered),
    multiply(
      measured('tube', length_dm, LENGTH_U * length_dm),
      measured('concentration', c_g_mL, relative * c_g_mL),
    ),
  );
}

/** Enantiomeric excess in percent, with the sign of the rotation against the pure enantiomer's. */
export function enantiomericExcess(specific: number, pure: number): number {
  return (100 * specific) / pure;
}

/** The shares in percent of the enantiomer in excess and of the other. */
export function enantiomerShares(excess: number): readonly [major: number, minor: number] {
  const size = Math.min(100, Math.abs(excess));
  return [(100 + size) / 2, (100 - size) / 2];
}
