import type { InfraredSpectrum } from '../../infrared.ts';
import { interpolate } from '../../treat/resample.ts';
import { savitzkyGolay } from '../../treat/smooth.ts';
import { indexAt, medianOf, stepsOf } from '../../treat/order.ts';
import type { ClaimFinding } from '../finding.ts';

/** How far the noise of two records goes together. */
export interface NoiseLikeness {
  /** Correlation of the two residuals, −1 to 1. */
  readonly r: number;
  readonly points: number;
  /** Standard error of r where the two have nothing to do with each other: 1/√(points). */
  readonly u: number;
}

/**
 * Where few molecules absorb and air has no lines: what is left there after smoothing is noise. The
 * bands themselves would correlate in two honest records of one substance.
 */
const QUIET = [
  [1900, 2270],
  [2400, 2700],
  [3950, 4000],
] as const;
const HALF = 4;
const DEGREE = 2;
const FEWEST = 60;
/** A band that reaches into a quiet stretch would stand out of the noise by far more than this. */
const CLIP = 4;
/** Values are stored to some digit; a residual as small as that is no noise. */
const LEAST_NOISE = 1e-7;

/**
 * Correlation of the residual noise of two records: each less its Savitzky–Golay smooth over nine
 * points, in the quiet stretches, clipped at 4 of its own median sizes. Undefined where there are too
 * few common points, or no noise at all, as in a curve that was worked out or drawn.
 */
export function noiseLikeness(
  one: InfraredSpectrum,
  other: InfraredSpectrum,
): NoiseLikeness | undefined {
  const a: number[] = [];
  const b: number[] = [];
  for (const [from, to] of QUIET) {
    const part = commonPart(one, other, from, to);
    if (part === undefined) continue;
    a.push(...residualOf(part[0]));
    b.push(...residualOf(part[1]));
  }
  const n = a.length;
  if (n < FEWEST) return undefined;
  const [x, y] = [clipped(a), clipped(b)];
  if (x === undefined || y === undefined) return undefined;
  return { r: correlation(x, y), points: n, u: 1 / Math.sqrt(n) };
}

function commonPart(
  one: InfraredSpectrum,
  other: InfraredSpectrum,
  from: number,
  to: number,
): readonly [Float64Array, Float64Array] | undefined {
  const [xa, xb] = [one.wavenumber_percm, other.wavenumber_percm];
  const low = Math.max(from, xa[0]!, xb[0]!);
  const high = Math.min(to, xa.at(-1)!, xb.at(-1)!);
  const [first, past] = [indexAt(xa, low), indexAt(xa, high)];
  if (past - first < 4 * HALF) return undefined;
  const x = xa.subarray(first, past);
  const inOther = xb.subarray(indexAt(xb, low), indexAt(xb, high));
  if (inOther.length < 4 * HALF) return undefined;
  const [step, otherStep] = [medianOf(stepsOf(x)), medianOf(stepsOf(inOther))];
  // Put on a much coarser grid, noise is averaged away
  if (step > 1.6 * otherStep || otherStep > 1.6 * step) return undefined;
  return [one.absorbance.subarray(first, past), interpolate(xb, other.absorbance, x)];
}

function residualOf(y: Float64Array): Float64Array {
  const smooth = savitzkyGolay(y, { half: HALF, degree: DEGREE });
  return y.map((value, i) => value - smooth[i]!).subarray(HALF, y.length - HALF);
}

function clipped(values: readonly number[]): Float64Array | undefined {
  const all = Float64Array.from(values);
  const size = 1.4826 * medianOf(all.map(Math.abs));
  if (size < LEAST_NOISE) return undefined;
  return all.map((value) => Math.max(-CLIP * size, Math.min(CLIP * size, value)));
}

function correlation(x: Float64Array, y: Float64Array): number {
  const n = x.length;
  const mean = (values: Float64Array): number => values.reduce((sum, v) => sum + v, 0) / n;
  const [mx, my] = [mean(x), mean(y)];
  let [xy, xx, yy] = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    xy += (x[i]! - mx) * (y[i]! - my);
    xx += (x[i]! - mx) ** 2;
    yy += (y[i]! - my) ** 2;
  }
  return xx > 0 && yy > 0 ? xy / Math.sqrt(xx * yy) : 0;
}

/** One file saved twice; and as much as a common background of few scans could make. */
const ONE_FILE = 0.9;
const COMMON_BACKGROUND = 0.6;

/** The record that has the noise of another, if there is one. */
export function sameNoise(
  spectrum: InfraredSpectrum,
  others: readonly InfraredSpectrum[],
): ClaimFinding | undefined {
  const alike = others
    .map((other) => ({ other, likeness: noiseLikeness(spectrum, other) }))
    .filter(({ likeness }) => likeness !== undefined && likeness.r > COMMON_BACKGROUND)
    .sort((a, b) => b.likeness!.r - a.likeness!.r)[0];
  if (alike === undefined) return undefined;
  const { r } = alike.likeness!;
  const one = r >= ONE_FILE;
  return {
    id: 'same-noise',
    weight: 'notes',
    likelihood: one ? 0.95 : 0.4,
    says:
      `Even the noise of this record and of “${alike.other.title}” goes together (r = ${r.toFixed(2)}). ` +
      (one
        ? 'Two measurements do not repeat their noise: the two may be one record, saved twice.'
        : 'A common background can do that; so can a copy that was smoothed.'),
    right: 'Ask which sample each file is of, and measure again if nobody knows.',
    evidence: [],
  };
}
