import type { Substance } from '../../chemistry/substance.ts';
import behaviourTable from '../../facts/melting_behaviour.json' with { type: 'json' };
import fusionTable from '../../facts/fusion.json' with { type: 'json' };
import { numberIn, rowsOf } from '../../facts/table.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';
import { apply, measured, multiply } from '../../quantity/uncertain.ts';

/** Molar gas constant in J/(mol K): exact since the SI of 2019. */
export const GAS_CONSTANT = 8.314462618;
export const ZERO_C_K = 273.15;

export interface Fusion {
  readonly enthalpy_J_mol: number;
  readonly source: string;
}

let fusions: ReadonlyMap<string, Fusion> | undefined;
let behaviours: ReadonlyMap<string, string> | undefined;

const namesOf = (substance: Substance): string[] =>
  [substance.name, ...substance.synonyms].map((name) => name.toLowerCase());

/** The enthalpy of fusion of a substance, where data/fusion.csv has it. */
export function fusionOf(substance: Substance): Fusion | undefined {
  fusions ??= new Map(
    rowsOf(fusionTable).map((row) => [
      row['name']!,
      { enthalpy_J_mol: 1000 * numberIn(row['enthalpy_kJ_mol'])!, source: row['source']! },
    ]),
  );
  for (const name of namesOf(substance)) {
    const found = fusions.get(name);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** What is known of how a substance melts, as sentences; empty where nothing is. */
export function behaviourOf(substance: Substance): string {
  behaviours ??= new Map(rowsOf(behaviourTable).map((row) => [row['name']!, row['note']!]));
  for (const name of namesOf(substance)) {
    const found = behaviours.get(name);
    if (found !== undefined) return found;
  }
  return '';
}

/**
 * Mole fraction of impurities in a melt that is just clear at T (K), where the pure substance melts
 * at T0 (K): −ln(1 − x) = (ΔH/R)·(1/T − 1/T0), which for small x is ΔT = x·R·T0²/ΔH (van 't Hoff).
 * Ideal melt, impurities that do not enter the crystal. Negative above T0.
 */
export function impurityShare(T_K: number, T0_K: number, enthalpy_J_mol: number): number {
  return -Math.expm1((enthalpy_J_mol / GAS_CONSTANT) * (1 / T0_K - 1 / T_K));
}

/** Cryoscopic constant in K kg/mol: R·T0²·M/ΔH, M in g/mol (physical chemistry textbooks). */
export function cryoscopicConstant(
  T0_K: number,
  molarMass_g_mol: number,
  enthalpy_J_mol: number,
): number {
  return (GAS_CONSTANT * T0_K * T0_K * molarMass_g_mol) / 1000 / enthalpy_J_mol;
}

/** How far a melt may be from ideal, and a reading from equilibrium, as a relative u (judgement). */
const IDEALITY_U = 0.3;

/** The impurity share of a clear point, with the uncertainty of both temperatures and of the model. */
export function impurityOf(top_C: Uncertain, pure_C: Uncertain, fusion: Fusion): Uncertain {
  const share = apply(
    (top, pure) => impurityShare(top + ZERO_C_K, pure + ZERO_C_K, fusion.enthalpy_J_mol),
    [top_C, pure_C],
  );
  return multiply(share, measured('ideal melt', 1, IDEALITY_U));
}
