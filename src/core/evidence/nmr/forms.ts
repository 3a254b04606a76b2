import { isCarbon, isCarbonyl } from '../../chemistry/skeleton.ts';
import type { Skeleton } from '../../chemistry/skeleton.ts';

/** A carbon with hydrogen between two C=O: its enol stands beside it, with signals of its own. */
function enolises(s: Skeleton): boolean {
  return s.atoms.some(
    (_, atom) =>
      isCarbon(s, atom) &&
      !s.aromatic[atom] &&
      s.hydrogens[atom]! > 0 &&
      s.links[atom]!.filter(({ to }) => isCarbonyl(s, to)).length > 1,
  );
}

/** A nitrogen on C=O with two other groups: turning about the bond is slow. */
function hasRotamers(s: Skeleton): boolean {
  return s.links.some(
    (links, atom) =>
      s.atoms[atom]!.symbol === 'N' &&
      !s.aromatic[atom] &&
      links.length === 3 &&
      links.some(({ to }) => isCarbonyl(s, to)),
  );
}

/**
 * Why a pure substance may show more signals than its structure has environments, as a sentence
 * (common practice); undefined where it has one form.
 */
export function formsOf(skeleton: Skeleton): string | undefined {
  if (enolises(skeleton))
    return 'Keto and enol forms stand side by side, each with its own signals, and share the integrals.';
  if (hasRotamers(skeleton))
    return 'Rotamers about the bond from C=O to N can double signals or broaden them.';
  return undefined;
}
