import type { TraceView } from './view.ts';
import { STEP_PERCM, indexOf, positionOf } from './view.ts';

/** A maximum of the view, measured where the features need it. Heights are absorbances. */
export interface Maximum {
  readonly position_percm: number;
  /** Above the hull. */
  readonly height: number;
  /** Above the higher of the two valleys beside it. */
  readonly prominence: number;
  /** Full width at half prominence. */
  readonly width_percm: number;
  /** From the top to half of the *height*, towards high wavenumbers; merged neighbours stop it. */
  readonly highSide_percm: number;
}

/** How far to walk for a valley: the widest O–H band fits. */
const REACH = 500;

/**
 * The least prominence, as a share of the tallest band, that is no noise: from peak to valley noise
 * alone reaches 5 σ somewhere in a few hundred points.
 */
export function leastShare(view: TraceView): number {
  return Math.max((6 * view.noise) / view.tallest, 0.004);
}

/** Every maximum that stands out of the noise, in the order of the grid. */
export function maximaOf(view: TraceView): readonly Maximum[] {
  const least = leastShare(view) * view.tallest;
  const found: Maximum[] = [];
  const y = view.height;
  for (let i = 1; i + 1 < y.length; i++) {
    if (!(y[i]! > y[i - 1]!) || y[i]! < least) continue;
    let end = i;
    while (end + 1 < y.length && y[end + 1] === y[i]) end++;
    if (!(y[end + 1]! < y[i]!)) continue;
    const one = measured(y, Math.round((i + end) / 2), least);
    if (one !== undefined) found.push(one);
  }
  return found;
}

function measured(y: Float64Array, top: number, least: number): Maximum | undefined {
  const height = y[top]!;
  const prominence = height - Math.max(valley(y, top, -1), valley(y, top, 1), 0);
  if (prominence < least) return undefined;
  const level = height - prominence / 2;
  const low = crossing(y, top, -1, level);
  const high = crossing(y, top, 1, level);
  return {
    position_percm: positionOf(top) + STEP_PERCM * vertex(y[top - 1]!, height, y[top + 1]!),
    height,
    prominence,
    width_percm: (high + low) * STEP_PERCM,
    highSide_percm: crossing(y, top, 1, height / 2) * STEP_PERCM,
  };
}

/** Offset, in steps, of the top of the parabola through three points. */
function vertex(before: number, top: number, after: number): number {
  const bend = before - 2 * top + after;
  return bend < 0 ? Math.max(-0.5, Math.min(0.5, (0.5 * (before - after)) / bend)) : 0;
}

function valley(y: Float64Array, top: number, step: 1 | -1): number {
  let least = y[top]!;
  for (let k = 1; k <= REACH; k++) {
    const value = y[top + k * step];
    if (value === undefined || Number.isNaN(value)) return least;
    if (value > y[top]!) return least;
    if (value < least) least = value;
  }
  return least;
}

/** Steps from the top until the curve falls below the level, the last one interpolated. */
function crossing(y: Float64Array, top: number, step: 1 | -1, level: number): number {
  for (let k = 1; k <= REACH; k++) {
    const value = y[top + k * step];
    if (value === undefined || Number.isNaN(value) || value > y[top]!) return k - 1 || 1;
    if (value > level) continue;
    const before = y[top + (k - 1) * step]!;
    return k - 1 + (before - level) / Math.max(before - value, 1e-12);
  }
  return REACH;
}

export function maximaWithin(
  maxima: readonly Maximum[],
  low_percm: number,
  high_percm: number,
): readonly Maximum[] {
  return maxima.filter(
    ({ position_percm }) => position_percm >= low_percm && position_percm <= high_percm,
  );
}

/** The one that stands out most. */
export function mostProminent(maxima: readonly Maximum[]): Maximum | undefined {
  return maxima.reduce<Maximum | undefined>(
    (best, one) => (best === undefined || one.prominence > best.prominence ? one : best),
    undefined,
  );
}

export function tallestOf(maxima: readonly Maximum[]): Maximum | undefined {
  return maxima.reduce<Maximum | undefined>(
    (best, one) => (best === undefined || one.height > best.height ? one : best),
    undefined,
  );
}

/** Height of the curve at a place, NaN outside the record. */
export function heightAt(view: TraceView, position_percm: number): number {
  return view.height[indexOf(position_percm)] ?? Number.NaN;
}
