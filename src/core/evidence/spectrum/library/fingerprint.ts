import type { InfraredSpectrum } from '../infrared.ts';
import { baselineOf } from '../treat/baseline.ts';
import { evenGrid, resample } from '../treat/resample.ts';

/**
 * The shape of an infrared spectrum on a fixed grid: how its bands rise and fall, whatever the
 * thickness of the sample and the background under it. Whole numbers from −127 to 127.
 */
export interface Fingerprint {
  /** One for each place of the grid from 600 to 4000 cm⁻¹; 0 where nothing is known or compared. */
  readonly slopes: Int8Array;
  /** The places that the spectrum reaches over: from this one … */
  readonly first: number;
  /** … to before this one. */
  readonly past: number;
}

/** Raised whenever the same spectrum gives another fingerprint: one that was kept is then made anew. */
export const FINGERPRINT_FORM = 1;

export const LOW_PERCM = 600;
export const HIGH_PERCM = 4000;
export const STEP_PERCM = 4;
const GRID = evenGrid(LOW_PERCM, HIGH_PERCM, STEP_PERCM);
export const PLACES = GRID.length;

/** Where the carbon dioxide of the air absorbs: its stretch and its bend. From memory. */
const AIR_PERCM = [
  [655, 680],
  [2280, 2390],
] as const;

/** Blurred by a normal curve of this spread: bands that moved by a few cm⁻¹ still meet. */
const BLUR_PERCM = 8;
/** Heights are compared by their roots, so that weak bands count too; below this share less and less. */
const FAINT = 0.02;
const LARGEST = 127;
/** A curve that rises above its background by less than this shows no bands. */
const LEAST_ABSORBANCE = 1e-3;

/**
 * How a spectrum is compared with others: absorbance on the grid, background taken off, CO₂ bridged,
 * heights of ATR scaled with the depth that the light reaches (∝ 1/ν̃, Harrick 1967), roots of the
 * heights, blurred, and of that the slope. A factor, an offset and a tilt of the absorbance change
 * nothing. Undefined where no band stands out, or next to nothing lies in the range.
 */
export function fingerprintOf(spectrum: InfraredSpectrum): Fingerprint | undefined {
  const { wavenumber_percm, absorbance, gaps, state } = spectrum;
  const onGrid = resample(wavenumber_percm, absorbance, GRID);
  const first = onGrid.findIndex(Number.isFinite);
  const past = onGrid.findLastIndex(Number.isFinite) + 1;
  if (first < 0 || past - first < 8) return undefined;
  const x = GRID.subarray(first, past);
  const y = onGrid.subarray(first, past);
  for (const [from, to] of AIR_PERCM) bridge(x, y, from, to);
  const background = baselineOf(x, y);
  const heights = y.map((each, i) => {
    const height = Math.max(0, each - background[i]!);
    return state === 'atr' ? (height * x[i]!) / 1000 : height;
  });
  const slopes = slopesOf(blurred(rootsOf(heights)));
  const unknown = [...AIR_PERCM, ...gaps];
  for (let i = 0; i < x.length; i++)
    if (unknown.some(([from, to]) => x[i]! >= from && x[i]! <= to)) slopes[i] = 0;
  const highest = heights.reduce((most, each) => Math.max(most, each), 0);
  const steepest = slopes.reduce((most, each) => Math.max(most, Math.abs(each)), 0);
  if (highest < LEAST_ABSORBANCE || steepest === 0) return undefined;
  const whole = new Int8Array(PLACES);
  slopes.forEach((slope, i) => (whole[first + i] = Math.round((LARGEST * slope) / steepest)));
  return { slopes: whole, first, past };
}

/** A straight line from one side of a stretch to the other, in its place. */
function bridge(x: Float64Array, y: Float64Array, from: number, to: number): void {
  const before = x.findLastIndex((place) => place < from);
  const after = x.findIndex((place) => place > to);
  if (after < 0) y.fill(y[before] ?? 0, before + 1);
  else if (before < 0) y.fill(y[after]!, 0, after);
  else
    for (let i = before + 1; i < after; i++) {
      const share = (i - before) / (after - before);
      y[i] = y[before]! + share * (y[after]! - y[before]!);
    }
}

function rootsOf(heights: Float64Array): Float64Array {
  const highest = heights.reduce((most, each) => Math.max(most, each), 0) || 1;
  return heights.map((each) => Math.sqrt(each / highest + FAINT) - Math.sqrt(FAINT));
}

const REACH = Math.ceil((3 * BLUR_PERCM) / STEP_PERCM);
const KERNEL = Float64Array.from({ length: 2 * REACH + 1 }, (_, k) =>
  Math.exp(-((((k - REACH) * STEP_PERCM) / BLUR_PERCM) ** 2) / 2),
);

/** At the ends the mean of what is there. */
function blurred(y: Float64Array): Float64Array {
  return y.map((_, i) => {
    let [sum, weight] = [0, 0];
    for (let k = -REACH; k <= REACH; k++) {
      const value = y[i + k];
      if (value === undefined) continue;
      sum += KERNEL[k + REACH]! * value;
      weight += KERNEL[k + REACH]!;
    }
    return sum / weight;
  });
}

function slopesOf(y: Float64Array): Float64Array {
  return y.map((_, i) => (i === 0 || i === y.length - 1 ? 0 : y[i + 1]! - y[i - 1]!));
}

const HEAD_BYTES = 4;

/** As it is kept: first and past in two bytes each, the lower one first, then the slopes. */
export function fingerprintBytes({ slopes, first, past }: Fingerprint): Uint8Array {
  const bytes = new Uint8Array(HEAD_BYTES + PLACES);
  bytes.set([first & 0xff, first >> 8, past & 0xff, past >> 8]);
  bytes.set(new Uint8Array(slopes.buffer, slopes.byteOffset, PLACES), HEAD_BYTES);
  return bytes;
}

/** Undefined where the bytes are no fingerprint of this form. */
export function fingerprintFrom(bytes: Uint8Array): Fingerprint | undefined {
  if (bytes.length !== HEAD_BYTES + PLACES) return undefined;
  const first = bytes[0]! + 256 * bytes[1]!;
  const past = bytes[2]! + 256 * bytes[3]!;
  if (first >= past || past > PLACES) return undefined;
  return { slopes: Int8Array.from(bytes.subarray(HEAD_BYTES)), first, past };
}
