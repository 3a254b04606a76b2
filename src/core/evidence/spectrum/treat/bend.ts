/**
 * The smoothed second derivative at every point: a parabola by least squares through the points
 * within `reach` of each, at least `least` on either side. On an even grid this is the filter of
 * Savitzky and Golay; here the spacing may change along x. Also how far independent noise of
 * standard deviation 1 in y carries into it.
 */
export interface Bend {
  readonly second: Float64Array;
  readonly gain: Float64Array;
}

export function bendOf(x: Float64Array, y: Float64Array, reach: number, least = 2): Bend {
  const n = x.length;
  const second = new Float64Array(n);
  const gain = new Float64Array(n);
  let from = 0;
  let to = 0;
  for (let i = 0; i < n; i++) {
    const centre = x[i]!;
    while (x[from]! < centre - reach) from++;
    while (to + 1 < n && x[to + 1]! <= centre + reach) to++;
    const low = Math.max(0, Math.min(from, i - least));
    const high = Math.min(n - 1, Math.max(to, i + least));
    let [s1, s2, s3, s4, t0, t1, t2] = [0, 0, 0, 0, 0, 0, 0];
    const s0 = high - low + 1;
    const y0 = y[i]!;
    for (let j = low; j <= high; j++) {
      const d = x[j]! - centre;
      const v = y[j]! - y0;
      const dd = d * d;
      s1 += d;
      s2 += dd;
      s3 += dd * d;
      s4 += dd * dd;
      t0 += v;
      t1 += v * d;
      t2 += v * dd;
    }
    // Cramer's rule for the coefficient of d²
    const c0 = s1 * s3 - s2 * s2;
    const c1 = s1 * s2 - s0 * s3;
    const c2 = s0 * s2 - s1 * s1;
    const determinant = s2 * c0 + s3 * c1 + s4 * c2;
    if (determinant <= 0 || s0 < 4) continue;
    second[i] = (2 * (t0 * c0 + t1 * c1 + t2 * c2)) / determinant;
    gain[i] = 2 * Math.sqrt(c2 / determinant);
  }
  return { second, gain };
}
