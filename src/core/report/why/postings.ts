import type { Enactment } from '../../enact/enactment.ts';
import { accountKind } from '../../ledger/account.ts';
import type { Account, AccountKind } from '../../ledger/account.ts';
import type { Posting } from '../../ledger/posting.ts';
import { formatQuantity } from '../../quantity/print.ts';
import { figuresGiven } from '../common/figures.ts';
import { nameOf, restOf, vesselOf } from '../common/name.ts';
import type { WhyPosting } from './derivation.ts';

const PLACES: Readonly<Record<AccountKind, (account: Account) => string>> = {
  stock: () => 'the stock',
  vessel: (account) => vesselOf(account) ?? account,
  air: () => 'the air',
  waste: (account) => `${restOf(account)} waste`,
  loss: (account) => `missing at step ${restOf(account)}`,
  reaction: restOf,
  unwritten: () => 'what the equation leaves out',
  unexplained: (account) => `unexplained at step ${restOf(account)}`,
};

/** An account in words. */
export function placeIn(account: Account): string {
  return PLACES[accountKind(account)](account);
}

/** Postings that are wanted, in the order of the ledger; those of one passage are one. */
export function postingsOf(
  enactment: Enactment,
  wanted: (posting: Posting) => boolean,
): WhyPosting[] {
  const found = new Map<string, Omit<WhyPosting, 'text'>>();
  for (const posting of enactment.postings) {
    if (!wanted(posting)) continue;
    const { step, substance, basis } = posting;
    const from = placeIn(posting.from);
    const to = placeIn(posting.to);
    if (from === to) continue;
    const key = [step, from, to, substance, basis].join('|');
    const held = found.get(key);
    found.set(key, {
      step,
      from,
      to,
      name: nameOf(enactment, substance),
      mass_g: posting.mass_g + (held?.mass_g ?? 0),
      amount_mmol: posting.amount_mmol + (held?.amount_mmol ?? 0),
      basis,
    });
  }
  return [...found.values()].map((posting) => ({
    ...posting,
    text: formatQuantity(posting.mass_g, 'mass', figuresOf(posting, enactment)),
  }));
}

/** What was weighed out as it was written or read; what was reckoned with three figures. */
function figuresOf(
  { step, mass_g }: Pick<WhyPosting, 'step' | 'mass_g'>,
  { charges }: Enactment,
): number {
  const whole = charges.find(
    (each) =>
      each.step === step &&
      each.measuredAs === 'mass' &&
      Math.abs(each.mass_g - mass_g) < 1e-9 * mass_g,
  );
  return (whole && figuresGiven([whole], mass_g)) ?? RECKONED;
}

const RECKONED = 3;
