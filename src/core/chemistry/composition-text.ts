import type { Composition } from './composition.ts';

/**
 * A composition as the compiled tables hold it: `C2H6O`, `CaHO4.5S`, `C2H3O2 -1`. Symbols stand in
 * their own order, a count of one is left out, a charge follows after a blank. Nothing has to be
 * parsed of it, so that a table of hundreds is read in a moment.
 */
export function compositionText({ counts, charge }: Composition): string {
  const atoms = [...counts].map(([symbol, count]) => symbol + (count === 1 ? '' : count)).join('');
  return charge === 0 ? atoms : `${atoms} ${charge}`;
}

const ATOM = /([A-Z][a-z]?)([\d.]*)/g;

/** The composition that `compositionText` wrote. */
export function compositionIn(text: string): Composition {
  const [atoms = '', charge = '0'] = text.split(' ');
  const counts = new Map<string, number>();
  for (const [, symbol, count] of atoms.matchAll(ATOM))
    counts.set(symbol!, count === '' ? 1 : Number(count));
  return { counts, charge: Number(charge) };
}
