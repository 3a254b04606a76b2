/** Relative standard uncertainty of an integral where none was given: common practice. */
export const INTEGRAL_U = 0.03;

/** Below about a tenth of a hydrogen a baseline decides, whatever the relative uncertainty. */
const LEAST_U = 0.08;

export interface ProtonCounts {
  /** Whole hydrogens of each signal. */
  readonly counts: readonly number[];
  /** Area of one hydrogen. */
  readonly scale: number;
  readonly total: number;
  /** The largest |integral/scale − count| in units of its standard uncertainty. */
  readonly worst: number;
}

function u(count: number, relativeU: number): number {
  return Math.hypot(relativeU * count, LEAST_U);
}

/** Weighted least squares of integral = scale · count, the counts rounded anew until they stay. */
function settle(integrals: readonly number[], from: number, relativeU: number): ProtonCounts {
  let scale = from;
  let counts: number[] = [];
  for (let round = 0; round < 8; round++) {
    const next = integrals.map((area) => Math.max(0, Math.round(area / scale)));
    const same = next.every((count, i) => count === counts[i]);
    counts = next;
    if (same) break;
    const weights = counts.map((count) => 1 / u(count, relativeU) ** 2);
    const up = counts.reduce((sum, n, i) => sum + weights[i]! * integrals[i]! * n, 0);
    const down = counts.reduce((sum, n, i) => sum + weights[i]! * n * n, 0);
    if (down === 0 || up === 0) break;
    scale = up / down;
  }
  const misses = integrals.map(
    (area, i) => Math.abs(area / scale - counts[i]!) / u(counts[i]!, relativeU),
  );
  return {
    counts,
    scale,
    total: counts.reduce((sum, n) => sum + n, 0),
    worst: Math.max(0, ...misses),
  };
}

/**
 * Integrals read as whole hydrogens that add up to one of the totals. The total whose counts fit
 * best; undefined where there is nothing to count. `total` of the answer tells whether any fitted.
 */
export function countsForTotals(
  integrals: readonly number[],
  totals: readonly number[],
  relativeU = INTEGRAL_U,
): ProtonCounts | undefined {
  const area = integrals.reduce((sum, one) => sum + one, 0);
  if (!(area > 0)) return undefined;
  const tries = totals
    .filter((total) => total > 0)
    .map((total) => ({ total, found: settle(integrals, area / total, relativeU) }));
  const sound = tries.filter(({ total, found }) => found.total === total);
  return (sound.length > 0 ? sound : tries)
    .map(({ found }) => found)
    .reduce<ProtonCounts | undefined>(
      (best, one) => (best === undefined || one.worst < best.worst - 1e-9 ? one : best),
      undefined,
    );
}

/**
 * The simplest ratio of whole numbers within twice the uncertainty: 40.5 : 27 : 13 : 118 is
 * 3 : 2 : 1 : 9. The smallest signal is tried as 1 to 6 hydrogens.
 */
export function simplestRatio(
  integrals: readonly number[],
  relativeU = INTEGRAL_U,
): ProtonCounts | undefined {
  const least = Math.min(...integrals.filter((area) => area > 0));
  if (!Number.isFinite(least)) return undefined;
  const tries = [1, 2, 3, 4, 5, 6].map((count) => settle(integrals, least / count, relativeU));
  return tries.find(({ worst }) => worst <= 2) ?? tries[0];
}
