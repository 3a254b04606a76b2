/**
 * The noise of a curve (standard deviation): from the median size of its second differences, which
 * slow drift and broad peaks hardly change. For normal noise the median of |d| is 0.6745 σ(d), and
 * σ(d) = √6 σ.
 */
export function noiseOf(y: Float64Array): number {
  if (y.length < 3) return 0;
  const seconds = new Float64Array(y.length - 2);
  for (let i = 1; i < y.length - 1; i++)
    seconds[i - 1] = Math.abs(y[i - 1]! - 2 * y[i]! + y[i + 1]!);
  seconds.sort();
  return seconds[seconds.length >> 1]! / 0.6745 / Math.sqrt(6);
}

export interface Turnings {
  readonly tops: readonly number[];
  /**
   * The lowest point before the first top, between each two, and after the last: one more than
   * tops.
   */
  readonly valleys: readonly number[];
}

/** Tops that stand out by `least` or more on both sides, in one pass, and the valleys between. */
export function turningsOf(y: Float64Array, least: number): Turnings {
  const tops: number[] = [];
  const valleys: number[] = [];
  let [low, high] = [0, 0];
  let rising = false;
  for (let i = 1; i < y.length; i++) {
    if (rising) {
      if (y[i]! > y[high]!) high = i;
      if (y[high]! - y[i]! >= least) {
        tops.push(high);
        low = i;
        rising = false;
      }
    } else {
      if (y[i]! < y[low]!) low = i;
      if (y[i]! - y[low]! >= least) {
        valleys.push(low);
        high = i;
        rising = true;
      }
    }
  }
  // A rise that the end of the record cuts off is no peak, but its foot closes the last one.
  if (!rising) valleys.push(low);
  return { tops, valleys };
}
