import { interpolate } from './resample.ts';
import { whittaker } from './whittaker.ts';

export interface BaselineOptions {
  /**
   * Waves of the background longer than this are followed, in the unit of x. Bands lie on one side
   * of it and are not, as long as there are free places beside them: an O–H band of 400 cm⁻¹ and the
   * shelf of an acid, 800 cm⁻¹, keep their heights to 2 % with 500.
   */
  readonly broader_percm?: number;
  /** How many stretches the curve is averaged over first. */
  readonly bins?: number;
}

const BROADER_PERCM = 500;
const BINS = 256;
const ROUNDS = 30;
/** The weights have settled: their relative change in a round. */
const SETTLED = 0.01;

/**
 * The slow background under the bands of y: scatter, tilt, offset. Penalised least squares with
 * weights that fall to nought above the curve (Baek, Park, Ahn, Choo 2015, Analyst 140, 250), on
 * averages of stretches of x rather than on every point, and a straight line between them. In the
 * unit of y, one value for each x. Where bands leave no free place it runs too high or too low:
 * heights of very broad bands depend on it.
 */
export function baselineOf(
  x: Float64Array,
  y: Float64Array,
  { broader_percm = BROADER_PERCM, bins = BINS }: BaselineOptions = {},
): Float64Array {
  const n = x.length;
  if (n < 3) return Float64Array.from(y);
  const count = Math.max(8, Math.min(bins, n));
  const { centre, mean, known } = averages(x, y, count);
  const step = (x[n - 1]! - x[0]!) / count;
  // A penalty λ on second differences passes half of a wave of 2π·λ^¼ steps (Eilers 2003)
  const stiffness = (broader_percm / step / (2 * Math.PI)) ** 4;
  let weights = Float64Array.from(known);
  let fitted = whittaker(mean, weights, stiffness);
  for (let round = 0; round < ROUNDS; round++) {
    const next = weightsBelow(mean, fitted, known);
    const change = relativeChange(weights, next);
    weights = next;
    fitted = whittaker(mean, weights, stiffness);
    if (change < SETTLED) break;
  }
  return interpolate(centre, fitted, x);
}

function averages(x: Float64Array, y: Float64Array, count: number) {
  const from = x[0]!;
  const span = x.at(-1)! - from;
  const mean = new Float64Array(count);
  const known = new Float64Array(count);
  const centre = Float64Array.from({ length: count }, (_, i) => from + ((i + 0.5) / count) * span);
  for (let i = 0; i < x.length; i++) {
    const bin = Math.min(count - 1, Math.floor((count * (x[i]! - from)) / span));
    mean[bin]! += y[i]!;
    known[bin]! += 1;
  }
  for (let i = 0; i < count; i++) {
    if (known[i] === 0) continue;
    mean[i]! /= known[i]!;
    known[i] = 1;
  }
  return { centre, mean, known };
}

/** One below the fit, falling to nought over the spread of what lies below it. */
function weightsBelow(y: Float64Array, fitted: Float64Array, known: Float64Array) {
  let [sum, squares, n] = [0, 0, 0];
  for (let i = 0; i < y.length; i++) {
    const d = y[i]! - fitted[i]!;
    if (known[i] === 0 || d >= 0) continue;
    sum += d;
    squares += d * d;
    n++;
  }
  const weights = Float64Array.from(known);
  if (n === 0) return weights;
  const mean = sum / n;
  const spread = Math.sqrt(Math.max(0, squares / n - mean * mean)) || Math.abs(mean) || 1e-12;
  for (let i = 0; i < y.length; i++) {
    if (known[i] === 0) continue;
    const d = y[i]! - fitted[i]!;
    const steps = (2 * (d - (2 * spread - mean))) / spread;
    weights[i] = 1 / (1 + Math.exp(Math.min(60, steps)));
  }
  return weights;
}

function relativeChange(before: Float64Array, after: Float64Array): number {
  let [moved, all] = [0, 0];
  for (let i = 0; i < before.length; i++) {
    moved += (after[i]! - before[i]!) ** 2;
    all += before[i]! ** 2;
  }
  return all === 0 ? 0 : Math.sqrt(moved / all);
}
