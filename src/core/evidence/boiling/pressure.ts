import type { Substance } from '../../chemistry/substance.ts';
import { hydrogensOf } from '../../chemistry/smiles-hydrogens.ts';
import { readSmiles } from '../../chemistry/smiles.ts';
import { readGraph } from '../../chemistry/smiles-read.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';
import { apply, exact, measured } from '../../quantity/uncertain.ts';
import type { PressureUnit } from './schema.ts';

export const NORMAL_KPA = 101.325;
const ZERO_C_K = 273.15;

/** 1 mmHg = 101.325/760 kPa (conventional millimetre of mercury, 1 part in 10⁷). */
const KPA: Record<PressureUnit, number> = {
  kPa: 1,
  mbar: 0.1,
  mmHg: NORMAL_KPA / 760,
  atm: NORMAL_KPA,
};

export function toKPa(value: number, unit: PressureUnit): number {
  return value * KPA[unit];
}

export type Association = 'plain' | 'hydrogenBonded' | 'unknown';

/**
 * φ = ΔS_vap/(R·ln 10) at the boiling point, with its standard uncertainty. Chosen so that near
 * 101.325 kPa the correction is that of Sydney Young: 0.00012 and 0.00010 per mmHg and kelvin, so
 * φ = 1/(760·0.00012·ln 10) = 4.77 and 5.72. The spread is that of handbook slopes (methods page).
 */
const PHI: Record<Association, { readonly value: number; readonly u: number }> = {
  plain: { value: 4.77, u: 0.24 },
  hydrogenBonded: { value: 5.72, u: 0.35 },
  unknown: { value: 5.2, u: 0.5 },
};
/** Of the curvature of ln p against 1/T: Hass and Newton. */
const CURVATURE = 0.15;

function rise(L: number, phi: number): number {
  return 1 + L / (phi + CURVATURE * L);
}

/**
 * The temperature in °C at which a liquid that boils at t (°C, at p kPa) boils at another pressure:
 * Δt = T·L/(φ + 0.15·L) to the normal pressure, L = log₁₀(101.325/p) (Hass and Newton, as tabulated
 * in handbooks), and back from there.
 */
export function boilingAt(t_C: number, p_kPa: number, other_kPa: number, phi: number): number {
  const normal_K = (t_C + ZERO_C_K) * rise(Math.log10(NORMAL_KPA / p_kPa), phi);
  return normal_K / rise(Math.log10(NORMAL_KPA / other_kPa), phi) - ZERO_C_K;
}

export function phiOf(association: Association): number {
  return PHI[association].value;
}

/** The same with uncertainties: of the reading, of the pressure, and of φ. */
export function boilingAtPressure(
  t_C: Uncertain,
  p_kPa: Uncertain,
  other_kPa: number,
  association: Association,
): Uncertain {
  const { value, u } = PHI[association];
  return apply(boilingAt, [t_C, p_kPa, exact(other_kPa), measured('φ', value, u)]);
}

/** Whether a structure has an O–H: alcohols, phenols, acids, water. Without a structure: unknown. */
export function associationOf({ smiles, composition }: Substance): Association {
  if (smiles !== undefined && readSmiles(smiles).ok) {
    const graph = readGraph(smiles.trim());
    const hydrogens = hydrogensOf(graph);
    const bonded = graph.atoms.some((atom, i) => atom.symbol === 'O' && hydrogens[i]! > 0);
    return bonded ? 'hydrogenBonded' : 'plain';
  }
  return composition !== undefined && !composition.counts.has('O') ? 'plain' : 'unknown';
}
