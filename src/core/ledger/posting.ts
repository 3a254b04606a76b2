import type { Account } from './account.ts';

/**
 * How a number is known: `planned` from the document, `measured` from a bench record, `assumed`
 * from a rule or a table that the reader is shown.
 */
export type Basis = 'planned' | 'measured' | 'assumed';

/** One movement of one substance, both legs in one record, so that a move balances by construction. */
export interface Posting {
  readonly step: string;
  readonly from: Account;
  readonly to: Account;
  /** The substance's id. */
  readonly substance: string;
  /** Amount of substance; 0 for matter without a formula, which is followed by mass alone. */
  readonly amount_mmol: number;
  readonly mass_g: number;
  readonly basis: Basis;
}
