import type { Basis } from '../../ledger/posting.ts';

const WEAKNESS: Readonly<Record<Basis, number>> = { measured: 0, planned: 1, assumed: 2 };

/** A sum is as well known as the least well known of its parts. */
export function weakest(bases: readonly Basis[], none: Basis): Basis {
  if (bases.length === 0) return none;
  return bases.reduce((worst, each) => (WEAKNESS[each] > WEAKNESS[worst] ? each : worst));
}
