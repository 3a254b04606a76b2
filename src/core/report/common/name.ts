import type { Enactment } from '../../enact/enactment.ts';
import type { Account } from '../../ledger/account.ts';

/** A substance's printed name; its id where the run does not know it. */
export function nameOf(enactment: Enactment, substance: string): string {
  return enactment.substances.get(substance)?.name ?? substance;
}

/** The vessel of `vessel/<id>/<phase>`, or undefined for any other account. */
export function vesselOf(account: Account): string | undefined {
  if (!account.startsWith('vessel/')) return undefined;
  const end = account.lastIndexOf('/');
  return end > 6 ? account.slice(7, end) : account.slice(7);
}

/** What comes behind the first stroke: the stream of `waste/<stream>`, the step of `loss/<step>`. */
export function restOf(account: Account): string {
  return account.slice(account.indexOf('/') + 1);
}
