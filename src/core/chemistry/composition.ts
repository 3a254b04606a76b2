/**
 * What a piece of matter is made of: how many atoms of each element, and its charge in units of
 * the elementary charge. Counts may be fractional (a hemihydrate) and are never zero; D and T are
 * symbols of their own. A difference of two compositions may hold negative counts.
 */
export interface Composition {
  readonly counts: ReadonlyMap<string, number>;
  readonly charge: number;
}

/** Below this, a count is the dust of floating-point arithmetic and not matter. */
const DUST = 1e-9;

/** Rounds off what addition and scaling leave behind: 0.1 + 0.2 is 0.3 atoms. */
function tidy(count: number): number {
  const nearest = Math.round(count);
  if (Math.abs(count - nearest) < DUST) return nearest === 0 ? 0 : nearest;
  return Number(count.toPrecision(14));
}

export function compositionOf(
  counts: Iterable<readonly [string, number]>,
  charge = 0,
): Composition {
  const sum = new Map<string, number>();
  for (const [symbol, count] of counts) sum.set(symbol, (sum.get(symbol) ?? 0) + count);
  for (const [symbol, count] of sum) {
    const tidied = tidy(count);
    if (tidied === 0) sum.delete(symbol);
    else sum.set(symbol, tidied);
  }
  return { counts: sum, charge: tidy(charge) };
}

export function addCompositions(...parts: readonly Composition[]): Composition {
  const counts = parts.flatMap((part) => [...part.counts]);
  return compositionOf(
    counts,
    parts.reduce((charge, part) => charge + part.charge, 0),
  );
}

export function scaleComposition(c: Composition, factor: number): Composition {
  return compositionOf(
    [...c.counts].map(([symbol, count]) => [symbol, count * factor] as const),
    c.charge * factor,
  );
}

/** The difference of two compositions, without what rounding leaves of equal large counts. */
export function subtractComposition(from: Composition, what: Composition): Composition {
  const rest = (a: number, b: number): number =>
    Math.abs(a - b) <= DUST * Math.max(1, Math.abs(a), Math.abs(b)) ? 0 : a - b;
  const symbols = new Set([...from.counts.keys(), ...what.counts.keys()]);
  return compositionOf(
    [...symbols].map((symbol) => [
      symbol,
      rest(from.counts.get(symbol) ?? 0, what.counts.get(symbol) ?? 0),
    ]),
    rest(from.charge, what.charge),
  );
}

/** Neither atoms nor charge. */
export function isNothing(c: Composition): boolean {
  return c.counts.size === 0 && c.charge === 0;
}

export function sameComposition(a: Composition, b: Composition): boolean {
  if (a.counts.size !== b.counts.size || Math.abs(a.charge - b.charge) > DUST) return false;
  for (const [symbol, count] of a.counts) {
    const other = b.counts.get(symbol);
    if (other === undefined) return false;
    if (Math.abs(count - other) > DUST * Math.max(1, Math.abs(count))) return false;
  }
  return true;
}
