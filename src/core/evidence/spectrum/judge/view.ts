import type { InfraredSpectrum, SampleState } from '../infrared.ts';
import { positionUAt } from '../treat/position.ts';

/** Grid of the view: fine enough for a 4 cm⁻¹ record, coarse enough to be quick. */
export const STEP_PERCM = 2;
const FIRST_PERCM = 400;
const LAST_PERCM = 4000;
const POINTS = (LAST_PERCM - FIRST_PERCM) / STEP_PERCM + 1;
/** Narrower dips than this are over-compensated solvent or noise, no baseline. */
const DIP_PERCM = 24;
/** Half widths, in steps, of the running mean: for a clean record, and for a noisy one. */
const CLEAN_HALF = 1;
const NOISY_HALF = 3;
/** A record is noisy where its noise is more than this share of its range. */
const NOISY = 0.005;

/**
 * A spectrum as the judge looks at it: even steps of 2 cm⁻¹ from 400 to 4000, `height` above a
 * lower hull that follows offset, slope and scatter. NaN where the record has nothing.
 */
export interface TraceView {
  readonly height: Float64Array;
  /** Absorbance on the same grid, before the hull was taken off. */
  readonly absorbance: Float64Array;
  readonly from_percm: number;
  readonly to_percm: number;
  /** Standard deviation of the absorbance from point to point. */
  readonly noise: number;
  /** The tallest band below 3150 cm⁻¹, CO2 left out: what heights are compared with. */
  readonly tallest: number;
  /** The tallest band is cut off: every other then looks taller beside it than it is. */
  readonly isClipped: boolean;
  /** Stretches where the detector saw next to nothing: heights there are lower bounds. */
  readonly saturated: readonly (readonly [number, number])[];
  readonly positionU_percm: number;
  /** What the view was made from. */
  readonly recorded: InfraredSpectrum;
  readonly state: SampleState | undefined;
}

export const indexOf = (position_percm: number): number =>
  Math.round((position_percm - FIRST_PERCM) / STEP_PERCM);

export const positionOf = (index: number): number => FIRST_PERCM + index * STEP_PERCM;

/** The spectrum on the even grid, its hull taken off and its scale measured. */
export function viewOf(spectrum: InfraredSpectrum): TraceView {
  const ceiling = ceilingOf(spectrum);
  const absorbance = resampled(spectrum, ceiling);
  const raw = noiseOf(spectrum.absorbance);
  const half = raw > NOISY * rangeOf(absorbance) ? NOISY_HALF : CLEAN_HALF;
  const even = smoothed(absorbance, half);
  const hull = lowerHull(closed(even, DIP_PERCM / STEP_PERCM / 2));
  const height = even.map((value, i) => value - hull[i]!);
  const x = spectrum.wavenumber_percm;
  const from_percm = Math.max(FIRST_PERCM, x[0] ?? LAST_PERCM);
  const to_percm = Math.min(LAST_PERCM, x[x.length - 1] ?? FIRST_PERCM);
  const spacing_percm = (to_percm - from_percm) / Math.max(1, x.length - 1);
  const tallest = Math.max(
    1e-9,
    ...stretchesOf(spectrum.state).map((at) => highest(height, ...at)),
  );
  return {
    height,
    absorbance,
    from_percm,
    to_percm,
    noise:
      raw /
      Math.sqrt(Math.max(1, ((2 * half + 1) * STEP_PERCM) / Math.max(STEP_PERCM, spacing_percm))),
    tallest,
    isClipped: isClipped(even, ceiling),
    saturated: saturatedIn(even, height),
    positionU_percm: spectrum.positionU_percm,
    recorded: spectrum,
    state: spectrum.state,
  };
}

/** Where the sample's own tallest band is looked for: not where oil or solvent absorb. */
function stretchesOf(state: SampleState | undefined): readonly (readonly [number, number])[] {
  if (state === 'mull')
    return [
      [740, 1355],
      [1395, 1435],
      [1485, 2270],
    ];
  if (state === 'solution')
    return [
      [850, 1490],
      [1570, 2120],
      [2400, 3000],
      [3040, 3150],
    ];
  return [
    [650, 2270],
    [2400, 3150],
  ];
}

/**
 * Absorbance above which a record says nothing: a chart of transmittance shows no difference
 * between 3 % and 0 %, and what it shows there would make every other band look small.
 */
const CEILING: Readonly<Record<InfraredSpectrum['recordedAs'], number>> = {
  transmittance: 1.5,
  absorbance: 2.5,
  absorptionIndex: Number.POSITIVE_INFINITY,
};

/** At the ceiling, or three bands and more that end at one height: the chart's own floor. */
function isClipped(even: Float64Array, ceiling: number): boolean {
  const top = even.reduce((most, value) => (value > most ? value : most), 0);
  if (top > 0.97 * ceiling) return true;
  if (top < 0.6) return false;
  let runs = 0;
  let above = false;
  for (const value of even) {
    if (!above && value > 0.93 * top) {
      above = true;
      runs++;
    } else if (value < 0.75 * top) above = false;
  }
  return runs >= 3;
}

/** Over a high background the same band reaches further before the chart ends, down to 1 %. */
function ceilingOf({ recordedAs, absorbance }: InfraredSpectrum): number {
  const sorted = Float64Array.from(absorbance).sort();
  const background = sorted[Math.floor(sorted.length / 10)] ?? 0;
  return CEILING[recordedAs] + Math.min(0.5, Math.max(0, background));
}

/**
 * The usual height of a band beside the tallest where the tallest is cut off: every other comes
 * nearer to it, small ones most. The power is a rough mean over samples two to
 * three times too thick.
 */
export function besideClipped(share: number, { isClipped }: TraceView): number {
  return isClipped && share < 1 ? share ** 0.7 : share;
}

function resampled(spectrum: InfraredSpectrum, ceiling: number): Float64Array {
  const { wavenumber_percm: x, absorbance: y, gaps } = spectrum;
  const grid = new Float64Array(POINTS).fill(Number.NaN);
  let j = 0;
  for (let i = 0; i < POINTS; i++) {
    const at = positionOf(i);
    while (j + 2 < x.length && x[j + 1]! < at) j++;
    const [x0, x1] = [x[j]!, x[j + 1]!];
    if (at < x0 - STEP_PERCM || at > x1 + STEP_PERCM) continue;
    const share = Math.min(1, Math.max(0, x1 > x0 ? (at - x0) / (x1 - x0) : 0));
    grid[i] = Math.min(ceiling, y[j]! + share * (y[j + 1]! - y[j]!));
  }
  for (const [from, to] of gaps)
    for (let i = indexOf(from) + 1; i < indexOf(to); i++)
      if (i >= 0 && i < POINTS) grid[i] = Number.NaN;
  return grid;
}

/** From the middle of the record to its tallest point. */
function rangeOf(values: Float64Array): number {
  const known = values.filter((value) => !Number.isNaN(value)).sort();
  return (known[known.length - 1] ?? 0) - (known[Math.floor(known.length / 4)] ?? 0);
}

function smoothed(values: Float64Array, half: number): Float64Array {
  return values.map((value, i) => {
    if (Number.isNaN(value)) return value;
    let sum = 0;
    let n = 0;
    for (let k = i - half; k <= i + half; k++) {
      const near = values[k];
      if (near === undefined || Number.isNaN(near)) continue;
      sum += near;
      n++;
    }
    return sum / n;
  });
}

/** Dilation, then erosion: fills dips narrower than the window and leaves the rest. */
function closed(values: Float64Array, half: number): Float64Array {
  const risen = extreme(values, half, 1);
  return extreme(risen, half, -1);
}

/** The highest (sign 1) or the lowest (−1) value within `half` steps. */
function extreme(values: Float64Array, half: number, sign: 1 | -1): Float64Array {
  const out = new Float64Array(values.length);
  for (let i = 0; i < values.length; i++) {
    let best = Number.NaN;
    const end = Math.min(values.length - 1, i + half);
    for (let k = Math.max(0, i - half); k <= end; k++) {
      const value = values[k]!;
      if (!(sign * value <= sign * best) && !Number.isNaN(value)) best = value;
    }
    out[i] = best;
  }
  return out;
}

/** The lower convex hull (Andrew's monotone chain), drawn out on the grid. */
function lowerHull(values: Float64Array): Float64Array {
  const corners: number[] = [];
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i]!)) continue;
    while (corners.length > 1) {
      const [a, b] = [corners[corners.length - 2]!, corners[corners.length - 1]!];
      const turn = (b - a) * (values[i]! - values[a]!) - (i - a) * (values[b]! - values[a]!);
      if (turn > 0) break;
      corners.pop();
    }
    corners.push(i);
  }
  const hull = new Float64Array(values.length);
  for (let c = 0; c + 1 < corners.length; c++) {
    const [a, b] = [corners[c]!, corners[c + 1]!];
    for (let i = a; i <= b; i++)
      hull[i] = values[a]! + ((values[b]! - values[a]!) * (i - a)) / (b - a);
  }
  return hull;
}

/**
 * From differences of three neighbours d = y₋₁ − 2y₀ + y₊₁, whose standard deviation is √6·σ. The
 * lower quartile of |d| (0.319·√6·σ) is taken: a quarter of the record has no band. Records with
 * steps give 0, so half a step of 0.001 is the least.
 */
function noiseOf(y: Float64Array): number {
  const every = Math.max(1, Math.floor(y.length / 1500));
  const sizes = new Float64Array(Math.ceil(y.length / every));
  let n = 0;
  for (let i = 1; i + 1 < y.length; i += every)
    sizes[n++] = Math.abs(y[i - 1]! - 2 * y[i]! + y[i + 1]!);
  const sorted = sizes.subarray(0, n).sort();
  return Math.max(0.0005, (sorted[Math.floor(n / 4)] ?? 0) / 0.78);
}

/** Flat tops: at most 3 % below the highest absorbance over 20 cm⁻¹, and above 0.8. */
function saturatedIn(even: Float64Array, height: Float64Array): [number, number][] {
  let top = 0;
  even.forEach((value) => (top = value > top ? value : top));
  const found: [number, number][] = [];
  if (top < 0.8) return found;
  let begun = -1;
  for (let i = 0; i <= even.length; i++) {
    const flat = i < even.length && even[i]! > Math.min(0.97 * top, 2.2) && height[i]! > 0.5;
    if (flat && begun < 0) begun = i;
    if (flat || begun < 0) continue;
    if ((i - begun) * STEP_PERCM >= 20) found.push([positionOf(begun), positionOf(i - 1)]);
    begun = -1;
  }
  return found;
}

export function isSaturated(view: TraceView, low_percm: number, high_percm: number): boolean {
  return view.saturated.some(([from, to]) => from <= high_percm && to >= low_percm);
}

/** Is at least `share` of the stretch recorded? */
export function covers(
  view: TraceView,
  low_percm: number,
  high_percm: number,
  share = 0.9,
): boolean {
  let have = 0;
  const [first, last] = [indexOf(low_percm), indexOf(high_percm)];
  for (let i = first; i <= last; i++)
    if (i >= 0 && i < POINTS && !Number.isNaN(view.height[i]!)) have++;
  return have >= share * (last - first + 1);
}

export function highest(height: Float64Array, low_percm: number, high_percm: number): number {
  let top = 0;
  for (let i = Math.max(0, indexOf(low_percm)); i <= indexOf(high_percm) && i < POINTS; i++)
    if (height[i]! > top) top = height[i]!;
  return top;
}

/** Mean height of a stretch; NaN where nothing is recorded. */
export function meanHeight(view: TraceView, low_percm: number, high_percm: number): number {
  let sum = 0;
  let n = 0;
  for (let i = Math.max(0, indexOf(low_percm)); i <= indexOf(high_percm) && i < POINTS; i++) {
    if (Number.isNaN(view.height[i]!)) continue;
    sum += view.height[i]!;
    n++;
  }
  return n === 0 ? Number.NaN : sum / n;
}

/** The lowest height of a stretch. */
export function lowest(view: TraceView, low_percm: number, high_percm: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = Math.max(0, indexOf(low_percm)); i <= indexOf(high_percm) && i < POINTS; i++)
    if (view.height[i]! < least) least = view.height[i]!;
  return Number.isFinite(least) ? least : Number.NaN;
}

/** Uncertainty of a position at its own place: of a record in wavelengths it grows with ν̃². */
export const uAt = ({ recorded }: TraceView, position_percm: number): number =>
  positionUAt(recorded, position_percm);
