import { bendOf } from './bend.ts';
import { noiseOf } from './noise.ts';
import { indexAt, medianOf, nearestTo, stepsOf } from './order.ts';
import { shouldersOf } from './shoulders.ts';
import { summitsOf } from './summits.ts';
import type { Summit } from './summits.ts';

/** A band of a spectrum. Heights are in the unit of y, measured from its zero. */
export interface Peak {
  readonly position_percm: number;
  readonly height: number;
  /** Above the higher of the two saddles beside it; of a shoulder: what the bend speaks for. */
  readonly prominence: number;
  /** Full width at half the prominence. */
  readonly width_percm: number;
  /** Standard uncertainty of the position within this curve: noise and spacing, no calibration. */
  readonly position_u_percm: number;
  readonly kind: 'peak' | 'shoulder';
}

export interface PeakOptions {
  /** Least prominence, in the unit of y. Absent: 1 % of the span of y, and 7 times the noise. */
  readonly minProminence?: number;
  /** Standard deviation of y at a point. Absent: taken from the curve (`noiseOf`). */
  readonly noise?: number;
  /**
   * The noise where y has this height, for a curve whose noise grows with it; a summit must stand
   * out of it as well. Absent: `noise` everywhere.
   */
  readonly noiseAt?: (height: number) => number;
  /** Stretches where y is clipped: a band there is one peak in the middle, however ragged. */
  readonly saturated?: readonly (readonly [from_percm: number, to_percm: number])[];
  /** Look for shoulders too. On unless said. */
  readonly shoulders?: boolean;
}

const LEAST_SHARE = 0.01;
/** Among some thousand points two neighbours differ by 6 σ once by chance. */
const LEAST_NOISE = 7;
/** How far down from the top the parabola is fitted, as a share of the prominence. */
const TOP = 0.001;
const DEEPEST = 0.3;
/** Half the stretch over which a bend is taken: less than the width of ordinary bands. */
const SHOULDER_REACH_PERCM = 6;
/** A fit through three noise-free points still errs by some of the spacing where bands lean. */
const SPACING_SHARE = 0.1;
/** And the top of a broad band, which leans and has digits that are too few, by some of its width. */
const WIDTH_SHARE = 0.01;

/**
 * The bands of a curve, by rising position. `x` rises and may be unevenly spaced; `y` points up.
 * Positions come from a parabola by least squares through the top; of a flat top it is the middle,
 * with the half-width of the flat over √3 as its uncertainty.
 */
export function findPeaks(x: Float64Array, y: Float64Array, options: PeakOptions = {}): Peak[] {
  if (x.length < 5) return [];
  const noise = options.noise ?? noiseOf(y);
  const least = options.minProminence ?? Math.max(LEAST_SHARE * spanOf(y), LEAST_NOISE * noise);
  const levelled = levelClipped(x, y, options.saturated ?? []);
  const noiseAt = options.noiseAt ?? (() => noise);
  const peaks = summitsOf(levelled, least).flatMap((summit) => {
    const there = noiseAt(levelled[summit.first]!);
    if (options.noiseAt !== undefined && summit.prominence < LEAST_NOISE * there) return [];
    return [peakAt(x, levelled, summit, there)];
  });
  if (options.shoulders === false) return peaks;
  const reach = Math.max(SHOULDER_REACH_PERCM, 2 * medianOf(stepsOf(x)));
  const bend = bendOf(x, levelled, reach, 2);
  const shoulders = shouldersOf(x, levelled, bend, peaks, { least, noise });
  return [...peaks, ...shoulders].sort((a, b) => a.position_percm - b.position_percm);
}

function spanOf(y: Float64Array): number {
  let [low, high] = [Infinity, -Infinity];
  for (const value of y) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return high - low;
}

/** Clipped stretches made level, at the highest value in each, so that each has one summit. */
function levelClipped(
  x: Float64Array,
  y: Float64Array,
  stretches: NonNullable<PeakOptions['saturated']>,
): Float64Array {
  if (stretches.length === 0) return y;
  const levelled = Float64Array.from(y);
  for (const [from, to] of stretches) {
    const first = indexAt(x, from);
    let past = first;
    let high = -Infinity;
    for (; past < x.length && x[past]! <= to; past++) high = Math.max(high, y[past]!);
    levelled.fill(high, first, past);
  }
  return levelled;
}

function peakAt(x: Float64Array, y: Float64Array, summit: Summit, noise: number): Peak {
  const { first, last, prominence } = summit;
  const top = y[first]!;
  const half = top - prominence / 2;
  const width_percm = crossing(x, y, last, 1, half) - crossing(x, y, first, -1, half);
  const base = { prominence, width_percm, kind: 'peak' } as const;
  // Two equal points are a top between them; three or more a flat
  if (last - first >= 2) {
    const [from, to] = [x[first]!, x[last]!];
    const u = (to - from) / 2 / Math.sqrt(3);
    return { ...base, position_percm: (from + to) / 2, height: top, position_u_percm: u };
  }
  const fitted = vertexOf(x, y, summit, width_percm, noise);
  return { ...base, ...fitted };
}

/** Where the curve first falls to `level`, going from `at` in the direction of `step`. */
function crossing(x: Float64Array, y: Float64Array, at: number, step: 1 | -1, level: number) {
  let i = at;
  while (i + step >= 0 && i + step < x.length && y[i + step]! > level) i += step;
  const next = i + step;
  if (next < 0 || next >= x.length) return x[i]!;
  const share = (y[i]! - level) / (y[i]! - y[next]!);
  return x[i]! + share * (x[next]! - x[i]!);
}

/**
 * The vertex of the parabola through the top, by least squares, three points at least. How much of
 * the top counts goes with the noise; the fit is made again around its own vertex, or the chance
 * that made one point the highest would draw it there.
 */
function vertexOf(x: Float64Array, y: Float64Array, summit: Summit, width: number, noise: number) {
  const { first, last, prominence } = summit;
  const share = Math.max(TOP, Math.min((4 * noise) / prominence, DEEPEST));
  // A parabola that is half down at half the width is `share` down here
  const reach = (width / 2) * Math.sqrt(2 * share);
  let centre = (x[first]! + x[last]!) / 2;
  let fitted = parabolaAt(x, y, first, last, centre, reach);
  if (fitted !== undefined && share > TOP) {
    centre = fitted.vertex;
    const at = Math.min(x.length - 2, Math.max(1, nearestTo(x, centre)));
    fitted = parabolaAt(x, y, at, at, centre, reach) ?? fitted;
  }
  const spacing = (x[last + 1]! - x[first - 1]!) / (last - first + 2);
  const height = y[first]!;
  if (fitted === undefined)
    return { position_percm: centre, height, position_u_percm: spacing / Math.sqrt(3) };
  return {
    position_percm: fitted.vertex,
    height: share > TOP ? fitted.height : Math.max(height, fitted.height),
    position_u_percm: Math.hypot(noise * fitted.gain, SPACING_SHARE * spacing, WIDTH_SHARE * width),
  };
}

/**
 * A parabola by least squares through the points within `reach` of `centre` and those from `first` − 1
 * to `last` + 1. `gain`: how far noise of 1 in y moves the vertex, which is u of the slope there over
 * twice the bend (JCGM 100:2008, 5.1.2). Undefined where it has no top near the points.
 */
function parabolaAt(
  x: Float64Array,
  y: Float64Array,
  first: number,
  last: number,
  centre: number,
  reach: number,
) {
  let low = first - 1;
  let high = last + 1;
  while (low > 0 && x[low - 1]! >= centre - reach) low--;
  while (high < x.length - 1 && x[high + 1]! <= centre + reach) high++;
  const scale = Math.max(x[high]! - centre, centre - x[low]!);
  let [s1, s2, s3, s4, t0, t1, t2] = [0, 0, 0, 0, 0, 0, 0];
  const s0 = high - low + 1;
  const level = y[first]!;
  for (let j = low; j <= high; j++) {
    const d = (x[j]! - centre) / scale;
    const v = y[j]! - level;
    s1 += d;
    s2 += d * d;
    s3 += d ** 3;
    s4 += d ** 4;
    t0 += v;
    t1 += v * d;
    t2 += v * d * d;
  }
  // Cramer's rule for level c, slope b and bend a at the centre
  const c0 = s1 * s3 - s2 * s2;
  const c1 = s1 * s2 - s0 * s3;
  const c2 = s0 * s2 - s1 * s1;
  const determinant = s2 * c0 + s3 * c1 + s4 * c2;
  const a = (t0 * c0 + t1 * c1 + t2 * c2) / determinant;
  const b = (t0 * (s2 * s3 - s1 * s4) + t1 * (s0 * s4 - s2 * s2) + t2 * c1) / determinant;
  const c = (t0 - b * s1 - a * s2) / s0;
  const place = -b / (2 * a);
  if (!(a < 0) || !(Math.abs(place) <= 1)) return undefined;
  const slopeVariance = (s0 * s4 - s2 * s2) / determinant;
  return {
    vertex: centre + place * scale,
    height: level + c - (b * b) / (4 * a),
    gain: (Math.sqrt(slopeVariance) * scale) / (2 * Math.abs(a)),
  };
}
