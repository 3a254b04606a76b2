import type { Enactment } from '../../enact/enactment.ts';
import type { Account } from '../../ledger/account.ts';
import { checkBalance } from '../../ledger/balance.ts';
import type { Imbalance } from '../../ledger/balance.ts';
import type { Basis } from '../../ledger/posting.ts';
import { nameOf } from '../common/name.ts';

/** One leg of a posting, with what stands on the account of that substance afterwards. */
export interface LedgerLine {
  readonly posting: number;
  readonly step: string;
  readonly account: Account;
  readonly other: Account;
  readonly substance: string;
  readonly name: string;
  readonly in_g: number;
  readonly out_g: number;
  readonly in_mmol: number;
  readonly out_mmol: number;
  readonly balance_g: number;
  readonly balance_mmol: number;
  readonly basis: Basis;
}

export interface AccountTotal {
  readonly account: Account;
  readonly in_g: number;
  readonly out_g: number;
  readonly balance_g: number;
  readonly substances: readonly {
    readonly substance: string;
    readonly name: string;
    readonly balance_g: number;
    readonly balance_mmol: number;
  }[];
}

export interface LedgerListing {
  readonly lines: readonly LedgerLine[];
  readonly accounts: readonly AccountTotal[];
  /** What does not balance: empty, or our bug. */
  readonly imbalances: readonly Imbalance[];
}

interface Page {
  in_g: number;
  out_g: number;
  readonly substances: Map<string, { balance_g: number; balance_mmol: number }>;
}

/** The ledger of a run, leg by leg with running balances, and what stands on each account at the end. */
export function ledgerListing(enactment: Enactment): LedgerListing {
  const lines: LedgerLine[] = [];
  const pages = new Map<Account, Page>();
  enactment.postings.forEach((posting, i) => {
    for (const side of ['from', 'to'] as const) {
      const account = posting[side];
      const sign = side === 'to' ? 1 : -1;
      const page = pageOf(pages, account);
      const held = page.substances.get(posting.substance) ?? { balance_g: 0, balance_mmol: 0 };
      held.balance_g += sign * posting.mass_g;
      held.balance_mmol += sign * posting.amount_mmol;
      page.substances.set(posting.substance, held);
      // A supply of unwritten matter may be posted as less than nothing; it then runs backwards.
      const inward = side === 'to';
      page.in_g += inward ? posting.mass_g : 0;
      page.out_g += inward ? 0 : posting.mass_g;
      lines.push({
        posting: i,
        step: posting.step,
        account,
        other: side === 'to' ? posting.from : posting.to,
        substance: posting.substance,
        name: nameOf(enactment, posting.substance),
        in_g: inward ? posting.mass_g : 0,
        out_g: inward ? 0 : posting.mass_g,
        in_mmol: inward ? posting.amount_mmol : 0,
        out_mmol: inward ? 0 : posting.amount_mmol,
        balance_g: held.balance_g,
        balance_mmol: held.balance_mmol,
        basis: posting.basis,
      });
    }
  });
  const accounts = [...pages].map(([account, page]) => accountTotal(account, page, enactment));
  return { lines, accounts, imbalances: checkBalance(enactment.postings, enactment.substances) };
}

function pageOf(pages: Map<Account, Page>, account: Account): Page {
  let page = pages.get(account);
  if (page === undefined) {
    page = { in_g: 0, out_g: 0, substances: new Map() };
    pages.set(account, page);
  }
  return page;
}

function accountTotal(account: Account, page: Page, enactment: Enactment): AccountTotal {
  return {
    account,
    in_g: page.in_g,
    out_g: page.out_g,
    balance_g: page.in_g - page.out_g,
    substances: [...page.substances].map(([substance, held]) => ({
      substance,
      name: nameOf(enactment, substance),
      ...held,
    })),
  };
}
