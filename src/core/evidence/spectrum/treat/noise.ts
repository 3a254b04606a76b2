import { medianOf } from './order.ts';

/** Median of |normal| is 0.6745 σ. */
const MAD_TO_SIGMA = 1.4826;
/** Σ of the squares of the binomial coefficients 1, 3, 3, 1: the variance of a third difference. */
const THIRD = Math.sqrt(20);

/**
 * Standard deviation of the noise of a curve, in the unit of y. Third differences remove bands and
 * slopes; their median size, where y is in its lower half and bands are few, is that of the noise
 * (the usual robust estimate, 1.4826 × the median deviation). Points that an instrument
 * interpolated between its own are not independent: the noise comes out low then.
 */
export function noiseOf(y: Float64Array): number {
  if (y.length < 8) return 0;
  const middle = medianOf(y);
  const sizes = new Float64Array(y.length - 3);
  let n = 0;
  for (let i = 0; i + 3 < y.length; i++) {
    if (y[i]! > middle) continue;
    sizes[n++] = Math.abs(y[i + 3]! - y[i]! - 3 * (y[i + 2]! - y[i + 1]!));
  }
  const kept = sizes.subarray(0, n);
  const noise = (MAD_TO_SIGMA * medianOf(kept)) / THIRD;
  if (noise > 0) return noise;
  // Coarse digits: most differences are nought, and the few steps tell
  let sum = 0;
  for (const size of kept) sum += size * size;
  return Math.sqrt(sum / Math.max(1, n)) / THIRD;
}
