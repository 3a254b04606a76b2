import type { Composition } from './composition.ts';
import { elementOf } from './element.ts';

export interface MolarMassPart {
  readonly symbol: string;
  readonly count: number;
  /** Relative atomic mass. */
  readonly weight: number;
  /** Its standard uncertainty. */
  readonly u: number;
}

export interface MolarMass {
  /** NaN, never a partial sum, where an element has no standard atomic weight: see `problem`. */
  readonly value_g_mol: number;
  /** Standard uncertainty (k = 1). */
  readonly u_g_mol: number;
  readonly parts: readonly MolarMassPart[];
  /** Why there is no value, in plain words. */
  readonly problem?: string;
}

export type WeightOf = (
  symbol: string,
) => { readonly weight?: number; readonly u?: number } | undefined;

/**
 * Molar mass (g/mol) of a composition: the sum of count times standard atomic weight. Identical
 * atoms carry the same error, so that their contributions add linearly; different elements add in
 * quadrature (van der Veen et al., Pure Appl. Chem. 2021, 93, 629; EURACHEM/CITAC CG 4, example
 * A2). The mass of electrons gained or lost, 0.00055 g/mol each, is left out, so that the masses
 * of the two sides of any balanced equation are equal.
 */
export function molarMass(c: Composition, weightOf: WeightOf = elementOf): MolarMass {
  const parts: MolarMassPart[] = [];
  const weightless: string[] = [];
  for (const [symbol, count] of c.counts) {
    const element = weightOf(symbol);
    if (element?.weight === undefined || element.u === undefined) weightless.push(symbol);
    else parts.push({ symbol, count, weight: element.weight, u: element.u });
  }
  if (weightless.length > 0) {
    const names = weightless.map((symbol) => elementOf(symbol)?.name ?? symbol).join(', ');
    const problem =
      `No molar mass: ${names} has no standard atomic weight, because its isotopes ` +
      'do not occur in a fixed proportion.';
    return { value_g_mol: NaN, u_g_mol: NaN, parts, problem };
  }
  // Summed from the smallest up, so that one order of writing gives the same digits as another.
  const masses = parts.map((part) => part.count * part.weight).sort((a, b) => a - b);
  return {
    value_g_mol: Number(masses.reduce((sum, mass) => sum + mass, 0).toPrecision(12)),
    u_g_mol: Math.hypot(...parts.map((part) => part.count * part.u)),
    parts,
  };
}
