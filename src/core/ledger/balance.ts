import type { Substance } from '../chemistry/substance.ts';
import type { Account, AccountKind } from './account.ts';
import { accountKind } from './account.ts';
import type { Posting } from './posting.ts';

/** What stands on one account of one substance. */
export interface Holding {
  readonly amount_mmol: number;
  readonly mass_g: number;
}

/** By account, then by substance id. Sources (stock, unwritten) stand below nought. */
export type Balances = ReadonlyMap<Account, ReadonlyMap<string, Holding>>;

/** Sums the postings, each as a debit of `from` and a credit of `to`. */
export function balances(postings: readonly Posting[]): Balances {
  const book = new Map<Account, Map<string, { amount_mmol: number; mass_g: number }>>();
  const add = (account: Account, substance: string, amount_mmol: number, mass_g: number) => {
    let page = book.get(account);
    if (page === undefined) book.set(account, (page = new Map()));
    const line = page.get(substance);
    if (line === undefined) page.set(substance, { amount_mmol, mass_g });
    else {
      line.amount_mmol += amount_mmol;
      line.mass_g += mass_g;
    }
  };
  for (const p of postings) {
    add(p.from, p.substance, -p.amount_mmol, -p.mass_g);
    add(p.to, p.substance, p.amount_mmol, p.mass_g);
  }
  return book;
}

/** Mass (g) on every account whose path begins with `under`: "vessel/flask", "waste", "loss/12". */
export function massUnder(book: Balances, under: string): number {
  let mass_g = 0;
  for (const [account, page] of book)
    if (account === under || account.startsWith(`${under}/`))
      for (const line of page.values()) mass_g += line.mass_g;
  return mass_g;
}

/** Matter by substance id on every account whose path begins with `under`. */
export function holdingsUnder(book: Balances, under: string): ReadonlyMap<string, Holding> {
  const sum = new Map<string, Holding>();
  for (const [account, page] of book) {
    if (account !== under && !account.startsWith(`${under}/`)) continue;
    for (const [id, line] of page) {
      const old = sum.get(id);
      sum.set(id, {
        amount_mmol: (old?.amount_mmol ?? 0) + line.amount_mmol,
        mass_g: (old?.mass_g ?? 0) + line.mass_g,
      });
    }
  }
  return sum;
}

/** Something that a ledger must never show: our bug, not the user's. */
export interface Imbalance {
  readonly account: Account;
  readonly what: 'mass' | 'element' | 'charge' | 'less than nothing' | 'molar mass';
  /** The element, or the substance. */
  readonly of?: string;
  readonly value: number;
}

const SUPPLIES: ReadonlySet<AccountKind> = new Set(['stock', 'unwritten', 'unexplained']);

/**
 * Checks what must always hold: all accounts together are nought in mass (g), in each element and
 * in charge (mmol); so is every turntable `reaction/…`; nothing but a supply stands below nought;
 * and the mass of each holding is its amount times the molar mass, without which the elements
 * would say something else than the balance. The tolerance is in g and mmol.
 */
export function checkBalance(
  postings: readonly Posting[],
  substances: ReadonlyMap<string, Substance>,
  tolerance = 1e-6,
): Imbalance[] {
  const book = balances(postings);
  const found: Imbalance[] = [];
  const all = new Tally();
  for (const [account, page] of book) {
    const own = new Tally();
    for (const [id, line] of page) {
      const substance = substances.get(id);
      own.add(substance, line);
      all.add(substance, line);
      if (!SUPPLIES.has(accountKind(account)) && line.mass_g < -tolerance)
        if (accountKind(account) !== 'reaction')
          found.push({ account, what: 'less than nothing', of: id, value: line.mass_g });
      const gap = line.mass_g - (line.amount_mmol * (substance?.molarMass_g_mol ?? 0)) / 1000;
      if (line.amount_mmol !== 0 && Math.abs(gap) > tolerance)
        found.push({ account, what: 'molar mass', of: id, value: gap });
    }
    if (accountKind(account) === 'reaction') own.report(account, tolerance, found);
  }
  all.report('all accounts', tolerance, found);
  return found;
}

/** Mass, elements and charge of what is added up. */
class Tally {
  private mass_g = 0;
  private charge_mmol = 0;
  private readonly elements_mmol = new Map<string, number>();

  add(substance: Substance | undefined, line: Holding): void {
    this.mass_g += line.mass_g;
    const composition = substance?.composition;
    if (composition === undefined) return;
    this.charge_mmol += composition.charge * line.amount_mmol;
    for (const [symbol, count] of composition.counts)
      this.elements_mmol.set(
        symbol,
        (this.elements_mmol.get(symbol) ?? 0) + count * line.amount_mmol,
      );
  }

  report(account: Account, tolerance: number, found: Imbalance[]): void {
    if (Math.abs(this.mass_g) > tolerance)
      found.push({ account, what: 'mass', value: this.mass_g });
    if (Math.abs(this.charge_mmol) > tolerance)
      found.push({ account, what: 'charge', value: this.charge_mmol });
    for (const [of, value] of this.elements_mmol)
      if (Math.abs(value) > tolerance) found.push({ account, what: 'element', of, value });
  }
}
