/** The layers of a vessel from the bottom up, each as a share of what the vessel holds. */
export interface Layer {
  readonly phase: 'solid' | 'organic' | 'aqueous' | 'vapour';
  readonly share: number;
}

/** Patterns, so that nothing hangs on colour: organic hatched, aqueous ruled, solids dotted. */
export const PATTERNS: Record<Layer['phase'], string> = {
  organic: '╱',
  aqueous: '≡',
  solid: '∴',
  vapour: ' ',
};

export const GAUGE_KEY =
  'Gauges: bottom of the vessel at the left, its capacity the whole; ╱ organic, ≡ aqueous, ∴ solid.';

/**
 * A vessel on its side. Where the capacity is not known (`fill` undefined) the right wall is left
 * open. Any layer that is there at all shows.
 */
export function gauge(fill: number | undefined, layers: readonly Layer[], width: number): string {
  const room = Math.max(1, width - 2);
  const share = fill === undefined ? 0.6 : Math.min(1, Math.max(0, fill));
  const seen = layers.filter((layer) => layer.share > 0 && layer.phase !== 'vapour');
  const filled = seen.length === 0 ? 0 : Math.max(seen.length, Math.round(share * room));
  const cells = shareOut(
    seen.map((layer) => layer.share),
    Math.min(filled, room),
  );
  const inside = seen.map((layer, i) => PATTERNS[layer.phase].repeat(cells[i]!)).join('');
  return `▕${inside.slice(0, room).padEnd(room)}${fill === undefined ? ' ' : '▏'}`;
}

/** Whole cells in proportion, at least one each, by largest remainder. */
function shareOut(shares: readonly number[], cells: number): number[] {
  const total = shares.reduce((sum, share) => sum + share, 0);
  if (total <= 0) return shares.map(() => 0);
  const spare = Math.max(0, cells - shares.length);
  const exact = shares.map((share) => (share / total) * cells);
  const given = exact.map((x) => Math.max(1, Math.floor(x)));
  let left = cells - given.reduce((sum, n) => sum + n, 0);
  const byRemainder = exact
    .map((x, i) => [x - Math.floor(x), i] as const)
    .sort((a, b) => b[0] - a[0]);
  for (const [, i] of byRemainder) {
    if (left <= 0 || spare === 0) break;
    given[i] = given[i]! + 1;
    left--;
  }
  for (; left < 0; left++) {
    const largest = given.indexOf(Math.max(...given));
    if (given[largest]! > 1) given[largest] = given[largest]! - 1;
  }
  return given;
}
