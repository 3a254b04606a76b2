import type { Substance } from '../chemistry/substance.ts';

export type SubjectRole = 'product' | 'startingMaterial' | 'reagent' | 'solvent' | 'byProduct';

/** Values to compare with, each with where it comes from. */
export interface Literature {
  readonly meltingRange_C?: readonly [low: number, high: number];
  readonly boilingPoint_C?: number;
  /** At 101.325 kPa unless said. */
  readonly boilingPressure_kPa?: number;
  readonly refractiveIndex?: number;
  readonly refractiveIndexT_C?: number;
  readonly density_g_mL?: number;
  readonly densityT_C?: number;
  /** [α] in degrees mL g⁻¹ dm⁻¹ of the pure enantiomer, sodium D line. */
  readonly specificRotation?: number;
  /** By quantity: "meltingRange_C" → "CRC Handbook". */
  readonly sources?: Readonly<Record<string, string>>;
}

/** A substance that a sample may be or hold, with what is known of it. */
export interface Subject {
  readonly role: SubjectRole;
  readonly substance: Substance;
  readonly literature: Literature;
}

/** What every judge of evidence is given: the substances of the experiment, the product first. */
export interface Subjects {
  readonly product?: Subject;
  readonly others: readonly Subject[];
}
