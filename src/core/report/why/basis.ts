import type { Enactment } from '../../enact/enactment.ts';
import type { Basis } from '../../ledger/posting.ts';
import { weakest } from '../common/basis.ts';

/** How well the amount of a substance that a reaction draws on is known: by its charges, or by what formed it. */
export function supplyBasis({ charges, reactions }: Enactment, substance: string): Basis {
  const charged = charges.filter((each) => each.material.substance.id === substance);
  const formed = reactions.filter((run) => run.formed.some((each) => each.substance === substance));
  const found = charged.length > 0 ? charged : formed;
  return weakest(
    found.map((each) => each.basis),
    'planned',
  );
}
