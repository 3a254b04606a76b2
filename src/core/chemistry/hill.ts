import type { Composition } from './composition.ts';

/** Hill order: carbon, hydrogen (then D and T), the rest by alphabet; without carbon all by alphabet. */
export function hillOrder(symbols: Iterable<string>): string[] {
  const sorted = [...symbols].sort((a, b) => (a < b ? -1 : 1));
  if (!sorted.includes('C')) return sorted;
  const first = ['C', 'H', 'D', 'T'].filter((symbol) => sorted.includes(symbol));
  return [...first, ...sorted.filter((symbol) => !first.includes(symbol))];
}

/** A whole count is written plainly, any other in brackets: the point of `O4.5` would be a hydrate's. */
function printCount(count: number): string {
  if (count === 1) return '';
  return Number.isInteger(count) ? String(count) : `(${count})`;
}

export function printCharge(charge: number): string {
  if (charge === 0) return '';
  const size = Math.abs(charge);
  return `^${size === 1 ? '' : size}${charge > 0 ? '+' : '-'}`;
}

/**
 * The formula in Hill order (Hill, J. Am. Chem. Soc. 1900, 22, 478), charge last after a caret:
 * `C9H8O4`, `O4S^2-`, `e^-`. `readFormula` reads it back to the same composition.
 */
export function printHill(c: Composition): string {
  const atoms = hillOrder(c.counts.keys()).map(
    (symbol) => symbol + printCount(c.counts.get(symbol)!),
  );
  const electron = atoms.length === 0 && c.charge === -1 ? 'e' : '';
  return electron + atoms.join('') + printCharge(c.charge);
}
