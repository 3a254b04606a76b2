import type { Basis } from '../../core/ledger/posting.ts';
import type { LedgerLine } from '../../core/report/listing/listing.ts';
import { ledgerListing } from '../../core/report/listing/listing.ts';
import { accountKind } from '../../core/ledger/account.ts';
import { restOf, vesselOf } from '../../core/report/common/name.ts';
import type { Enactment } from '../../core/enact/enactment.ts';
import type { Figures } from './figures.ts';

/** A passage of matter in the ledger, in words. */
export interface ReadablePosting {
  readonly step: string;
  readonly from: string;
  readonly to: string;
  readonly amount: string;
  readonly basis: Basis;
}

const PLACES: Readonly<Record<ReturnType<typeof accountKind>, (account: string) => string>> = {
  stock: () => 'the stock',
  vessel: (account) => `the ${vesselOf(account) ?? account}`,
  air: () => 'the air',
  waste: (account) => `${restOf(account)} waste`,
  loss: (account) => `missing at step ${restOf(account)}`,
  reaction: (account) => `the ${restOf(account)}`,
  unwritten: () => 'what the equation leaves out',
  unexplained: (account) => `unexplained at step ${restOf(account)}`,
};

const placeOf = (account: string) => PLACES[accountKind(account)](account);

/** What the ledger has of one substance, from vessel to vessel, the phases of one vessel together. */
export function postingsOf(
  enactment: Enactment,
  figures: Figures,
  wanted: (line: LedgerLine) => boolean,
): ReadablePosting[] {
  const sums = new Map<string, ReadablePosting & { mass_g: number }>();
  for (const line of ledgerListing(enactment).lines) {
    if (line.in_g === 0 || !wanted(line)) continue;
    const [from, to] = [placeOf(line.other), placeOf(line.account)];
    if (from === to) continue;
    const key = [line.step, from, to, line.basis].join('|');
    const mass_g = line.in_g + (sums.get(key)?.mass_g ?? 0);
    const amount = figures.grams(mass_g, 3);
    sums.set(key, { step: line.step, from, to, amount, basis: line.basis, mass_g });
  }
  return [...sums.values()];
}
