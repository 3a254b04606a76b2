import type { Basis } from '../../ledger/posting.ts';
import { formatNumber, THIN_SPACE } from '../../quantity/print.ts';

/** `table`: out of a published table, such as an atomic weight. */
export type WhyBasis = Basis | 'table';

/** One number that was put into a formula. */
export interface WhyLine {
  /** As in the formula: "m", "M", "n/ν". */
  readonly symbol: string;
  readonly what: string;
  /** null: there is none, as for a reactant in excess without a figure. */
  readonly value: number | null;
  readonly unit: string;
  /** Value and unit as they are printed. */
  readonly text: string;
  readonly basis: WhyBasis;
  readonly source?: string;
}

/** A passage of matter in the ledger, the phases of one vessel taken together. */
export interface WhyPosting {
  readonly step: string;
  readonly from: string;
  readonly to: string;
  readonly name: string;
  readonly mass_g: number;
  /** The mass as it is printed. */
  readonly text: string;
  readonly amount_mmol: number;
  readonly basis: Basis;
}

/** Where a number comes from: JSON-safe, and ready to be shown. */
export interface Derivation {
  readonly title: string;
  /** In symbols: "n = w · m / M". */
  readonly formula: string;
  readonly lines: readonly WhyLine[];
  readonly result: WhyLine;
  /** What was assumed or chosen, in sentences. */
  readonly said: readonly string[];
  readonly postings: readonly WhyPosting[];
  /** Each once. */
  readonly sources: readonly string[];
}

const FIGURES = 5;

/** A line whose number is printed as it was written or read, or with as many figures as help to follow the sum. */
export function lineOf(
  symbol: string,
  what: string,
  value: number,
  unit: string,
  basis: WhyBasis,
  source?: string,
  figures?: number,
): WhyLine {
  const number = formatNumber(value, figures ?? (countOnly(value) ? undefined : FIGURES));
  const text = unit === '' ? number : `${number}${THIN_SPACE}${unit}`;
  return { symbol, what, value, unit, text, basis, ...(source ? { source: cited(source) } : {}) };
}

/** What was published; the file that it was read out of is in the table of data. */
const cited = (source: string): string => source.replace(/ via github \S+.*$/, '');

const countOnly = (value: number): boolean => Number.isInteger(value) && Math.abs(value) < 1e4;

export function derivation(
  parts: Pick<Derivation, 'title' | 'formula' | 'lines' | 'result'> &
    Partial<Pick<Derivation, 'said' | 'postings' | 'sources'>>,
): Derivation {
  const named = parts.lines.flatMap(({ source }) => source ?? []);
  return {
    ...parts,
    said: parts.said ?? [],
    postings: parts.postings ?? [],
    sources: [...new Set([...(parts.sources ?? []).map(cited), ...named])],
  };
}
