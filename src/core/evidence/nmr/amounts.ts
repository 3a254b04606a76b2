import { divide, exact, measured, multiply, scale, sum } from '../../quantity/uncertain.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';

/** An integral with the hydrogens of one molecule that it stands for. */
export interface CountedIntegral {
  /** Names the integral, so that the same one used twice correlates. */
  readonly id: string;
  readonly integral: number;
  readonly hydrogens: number;
  /** Standard uncertainty of the integral. */
  readonly u: number;
}

/**
 * Relative amount of substance: area per hydrogen, Σ I / Σ H over the signals of one substance.
 */
export function areaPerHydrogen(signals: readonly CountedIntegral[]): Uncertain | undefined {
  const hydrogens = signals.reduce((total, signal) => total + signal.hydrogens, 0);
  if (hydrogens === 0) return undefined;
  const areas = signals.map(({ id, integral, u }) => measured(id, integral, u));
  return scale(sum(areas), 1 / hydrogens);
}

export interface Component {
  readonly name: string;
  /** Area per hydrogen: proportional to the amount of substance. */
  readonly amount: Uncertain;
  readonly molarMass_g_mol: number;
}

export interface Share {
  readonly name: string;
  readonly mole: Uncertain;
  readonly mass: Uncertain;
}

/** Shares of the components that the spectrum shows: xᵢ = nᵢ/Σn, wᵢ = nᵢMᵢ/ΣnM. */
export function sharesOf(components: readonly Component[]): Share[] {
  const amounts = components.map((component) => component.amount);
  const masses = components.map((c) => scale(c.amount, c.molarMass_g_mol));
  const moles = sum(amounts);
  const mass = sum(masses);
  return components.map((component, i) => ({
    name: component.name,
    mole: divide(amounts[i]!, moles),
    mass: divide(masses[i]!, mass),
  }));
}

export interface PurityInput {
  /** Area per hydrogen of the analyte and of the standard. */
  readonly analyte: Uncertain;
  readonly standard: Uncertain;
  readonly analyteMolarMass_g_mol: Uncertain;
  readonly standardMolarMass_g_mol: Uncertain;
  readonly sampleMass_mg: Uncertain;
  readonly standardMass_mg: Uncertain;
  /** Mass fraction, 0 to 1. */
  readonly standardPurity: Uncertain;
}

/**
 * Mass fraction of the analyte in the sample against a weighed internal standard:
 * P = (Iₐ/Nₐ)/(Iₛ/Nₛ) · (Mₐ/Mₛ) · (mₛ/mₐ) · Pₛ (Bharti and Roy, Trends Anal. Chem. 2012, 35, 5).
 */
export function purityByStandard(input: PurityInput): Uncertain {
  return [
    divide(input.analyte, input.standard),
    divide(input.analyteMolarMass_g_mol, input.standardMolarMass_g_mol),
    divide(input.standardMass_mg, input.sampleMass_mg),
    input.standardPurity,
  ].reduce(multiply, exact(1));
}

/** Share of the starting material that has become product, n(P)/(n(P) + n(S)). */
export function conversionOf(product: Uncertain, startingMaterial: Uncertain): Uncertain {
  return divide(product, sum([product, startingMaterial]));
}
