import weightsTable from '../facts/atomic_weights.json' with { type: 'json' };
import isotopesTable from '../facts/isotope_masses.json' with { type: 'json' };
import nonmetalsTable from '../facts/nonmetals.json' with { type: 'json' };
import { numberIn, rowsOf } from '../facts/table.ts';

/** A kind of atom that a formula can name: an element, or D and T, which stand for themselves. */
export interface Element {
  readonly symbol: string;
  readonly name: string;
  readonly atomicNumber: number;
  readonly isMetal: boolean;
  /** Relative atomic mass in use; absent where an element has no standard atomic weight. */
  readonly weight?: number;
  /** Standard uncertainty of that weight. */
  readonly u?: number;
  readonly source: string;
}

/**
 * The weight in use and its standard uncertainty. The weight is the abridged standard value (or
 * the newer full value where one has been published since). The uncertainty is that of the full
 * standard value read as a rectangular distribution, together with the step between the abridged
 * and the full value, so that a rounded weight never claims to be better known than its rounding.
 */
function weightIn(row: Record<string, string>): { weight: number; u: number } | undefined {
  const newer = numberIn(row.standard_2024);
  const newerU = numberIn(row.u_2024);
  if (newer !== undefined && newerU !== undefined)
    return { weight: newer, u: newerU / Math.sqrt(3) };
  const abridged = numberIn(row.abridged_2021);
  const full = numberIn(row.midpoint) ?? numberIn(row.standard_2021);
  const rectangular = numberIn(row.u_rect);
  if (abridged === undefined || full === undefined || rectangular === undefined) return undefined;
  return { weight: abridged, u: Math.hypot(rectangular, abridged - full) };
}

function readElements(): ReadonlyMap<string, Element> {
  const notMetal = new Set(rowsOf(nonmetalsTable).map((row) => row.symbol));
  const elements = new Map<string, Element>();
  for (const row of rowsOf(weightsTable)) {
    const symbol = row.symbol ?? '';
    elements.set(symbol, {
      symbol,
      name: row.name ?? symbol,
      atomicNumber: Number(row.z),
      isMetal: !notMetal.has(symbol),
      ...weightIn(row),
      source: row.source ?? '',
    });
  }
  for (const row of rowsOf(isotopesTable)) {
    elements.set(row.symbol!, {
      symbol: row.symbol!,
      name: `${elements.get(row.element!)?.name ?? ''}-${row.mass_number}`,
      atomicNumber: elements.get(row.element!)?.atomicNumber ?? 0,
      isMetal: false,
      weight: Number(row.mass),
      u: Number(row.u),
      source: row.source!,
    });
  }
  return elements;
}

let cached: ReadonlyMap<string, Element> | undefined;

/** Every element by symbol, with D and T beside them. */
export function elements(): ReadonlyMap<string, Element> {
  return (cached ??= readElements());
}

export function elementOf(symbol: string): Element | undefined {
  return elements().get(symbol);
}

/** Symbols by atomic number; D and T are not among them. */
export function symbolOf(atomicNumber: number): string | undefined {
  for (const element of elements().values())
    if (element.atomicNumber === atomicNumber) return element.symbol;
  return undefined;
}
