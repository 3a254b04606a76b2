/**
 * Coefficients of the filter of Savitzky and Golay (1964, Anal. Chem. 36, 1627; errors of its tables
 * corrected by Steinier, Termonia, Deltour 1972, Anal. Chem. 44, 1906): the polynomial of `degree` by
 * least squares through 2·half + 1 evenly spaced points, its value or derivative in the middle, for a
 * step of 1. By the recurrence of Gram polynomials (Gorry 1990, Anal. Chem. 62, 570), which is exact
 * for the first and the last points too: `at` is the place in the window, −half to half.
 */
export function savitzkyGolayCoefficients(
  half: number,
  degree: number,
  derivative = 0,
  at = 0,
): Float64Array {
  const coefficients = new Float64Array(2 * half + 1);
  const here = gram(at, half, degree, derivative);
  for (let i = -half; i <= half; i++) {
    const there = gram(i, half, degree, 0);
    let sum = 0;
    for (let k = 0; k <= degree; k++)
      sum +=
        (2 * k + 1) *
        (falling(2 * half, k) / falling(2 * half + k + 1, k + 1)) *
        there[k]![0]! *
        here[k]![derivative]!;
    coefficients[i + half] = sum;
  }
  return coefficients;
}

/** n·(n − 1)· … of k factors. */
function falling(n: number, k: number): number {
  let product = 1;
  for (let i = 0; i < k; i++) product *= n - i;
  return product;
}

/** The Gram polynomials up to `degree` at i, each with its derivatives up to `derivative`. */
function gram(i: number, half: number, degree: number, derivative: number): number[][] {
  const all: number[][] = [];
  for (let k = 0; k <= degree; k++) {
    const row: number[] = [];
    for (let s = 0; s <= derivative; s++) {
      if (k === 0) {
        row.push(s === 0 ? 1 : 0);
        continue;
      }
      const one = all[k - 1]!;
      const two = k > 1 ? all[k - 2]! : [];
      const lower = s > 0 ? s * one[s - 1]! : 0;
      const scale = (4 * k - 2) / (k * (2 * half - k + 1));
      const rest = ((k - 1) * (2 * half + k)) / (k * (2 * half - k + 1));
      row.push(scale * (i * one[s]! + lower) - rest * (two[s] ?? 0));
    }
    all.push(row);
  }
  return all;
}

export interface SmoothOptions {
  /** Points to either side of the middle. */
  readonly half: number;
  readonly degree: number;
  /** 0 smooths, 1 and 2 give derivatives. */
  readonly derivative?: number;
  /** Of the even grid, for derivatives: in the unit of x. */
  readonly step?: number;
}

/**
 * A curve on an even grid, smoothed or differentiated. The ends use the same polynomial away from
 * its middle. With fewer points than the window the curve comes back as it is (its derivative as
 * nought).
 */
export function savitzkyGolay(
  y: Float64Array,
  { half, degree, derivative = 0, step = 1 }: SmoothOptions,
): Float64Array {
  const n = y.length;
  const width = 2 * half + 1;
  if (n < width || degree >= width)
    return derivative === 0 ? Float64Array.from(y) : new Float64Array(n);
  const result = new Float64Array(n);
  const scale = step ** -derivative;
  const middle = savitzkyGolayCoefficients(half, degree, derivative);
  const apply = (coefficients: Float64Array, from: number): number => {
    let sum = 0;
    for (let j = 0; j < width; j++) sum += coefficients[j]! * y[from + j]!;
    return sum * scale;
  };
  for (let i = half; i < n - half; i++) result[i] = apply(middle, i - half);
  for (let i = 0; i < half; i++) {
    result[i] = apply(savitzkyGolayCoefficients(half, degree, derivative, i - half), 0);
    const last = savitzkyGolayCoefficients(half, degree, derivative, half - i);
    result[n - 1 - i] = apply(last, n - width);
  }
  return result;
}
