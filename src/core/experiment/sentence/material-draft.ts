import type { AmountKind, AnyAmount } from '../../quantity/amount.ts';
import type { RawRef } from './reference.ts';

/** A material as a sentence writes it, before its name is looked up. */
export interface RawMaterial {
  readonly name: string;
  /** Offsets in the document of the whole phrase, amounts included. */
  readonly start: number;
  readonly end: number;
  readonly amounts: readonly AnyAmount[];
  readonly purity_percent?: number;
  readonly density_g_mL?: number;
  readonly repeat: number;
  /** "the zinc": something that an earlier sentence set aside. */
  readonly definite: boolean;
  /** "the filtrate" in a list: something that lies in a vessel already. */
  readonly ref?: RawRef;
}

export interface MaterialTrouble {
  readonly message: string;
  readonly hint: string;
  readonly start: number;
  readonly end: number;
}

export interface MaterialList {
  readonly materials: readonly RawMaterial[];
  readonly trouble: readonly MaterialTrouble[];
}

/** Amounts that say how much is taken; the other kinds (M, %) belong to the name. */
const QUANTITY: ReadonlySet<AmountKind | 'unquantified'> = new Set<AmountKind | 'unquantified'>([
  'mass',
  'volume',
  'amount',
  'equivalents',
  'moleFraction',
  'drops',
  'unquantified',
]);

export function isQuantity(amount: AnyAmount): boolean {
  if (amount.kind === 'unquantified') return amount.sense === 'excess' || amount.sense === 'some';
  return QUANTITY.has(amount.kind);
}

/** A material while its phrase is read. */
export interface Draft {
  name: string;
  start: number;
  end: number;
  amounts: AnyAmount[];
  purity_percent?: number;
  density_g_mL?: number;
  repeat: number;
  definite: boolean;
}

export function take(amount: AnyAmount, draft: Draft): void {
  draft.amounts.push(amount);
  if (amount.kind !== 'unquantified' && amount.repeat !== undefined)
    draft.repeat = Math.max(draft.repeat, amount.repeat);
}

export function note(
  reading: { message: string; hint: string; start: number; end: number },
  start: number,
  trouble: MaterialTrouble[],
): void {
  trouble.push({
    message: reading.message,
    hint: reading.hint,
    start: start + reading.start,
    end: start + reading.end,
  });
}
