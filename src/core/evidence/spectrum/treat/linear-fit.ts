export interface LinearFit {
  /** The factor of each column. */
  readonly values: readonly number[];
  /** Their standard uncertainties, neighbours in the residual taken as they hang together. */
  readonly u: readonly number[];
  readonly residual: Float64Array;
}

/**
 * y ≈ Σ value · column by least squares, each point with its weight (all 1 unless given); undefined
 * where the columns do not tell themselves apart. The residual of a spectrum is no white noise: its
 * variance is spread over n·(1 − r)/(1 + r) independent points, r the correlation of neighbours
 * (common practice for a first-order series).
 */
export function linearFit(
  columns: readonly Float64Array[],
  y: Float64Array,
  weights?: Float64Array,
): LinearFit | undefined {
  const m = columns.length;
  const n = y.length;
  if (n <= m) return undefined;
  const matrix = Array.from({ length: m }, () => new Float64Array(m));
  const right = new Float64Array(m);
  for (let a = 0; a < m; a++) {
    for (let b = a; b < m; b++) {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += (weights?.[i] ?? 1) * columns[a]![i]! * columns[b]![i]!;
      matrix[a]![b] = sum;
      matrix[b]![a] = sum;
    }
    for (let i = 0; i < n; i++) right[a]! += (weights?.[i] ?? 1) * columns[a]![i]! * y[i]!;
  }
  const inverse = inverted(matrix);
  if (inverse === undefined) return undefined;
  const values = inverse.map((row) => row.reduce((sum, each, b) => sum + each * right[b]!, 0));
  const residual = Float64Array.from(y);
  for (let i = 0; i < n; i++)
    for (let a = 0; a < m; a++) residual[i]! -= values[a]! * columns[a]![i]!;
  const variance = varianceOf(residual, m, weights);
  const u = inverse.map((row, a) => Math.sqrt(Math.max(0, row[a]! * variance)));
  return { values, u, residual };
}

function varianceOf(residual: Float64Array, m: number, weights?: Float64Array): number {
  let [squares, products, count] = [0, 0, 0];
  for (let i = 0; i < residual.length; i++) {
    const w = weights?.[i] ?? 1;
    squares += w * residual[i]! ** 2;
    count += w;
    if (i > 0) products += w * residual[i]! * residual[i - 1]!;
  }
  if (squares === 0) return 0;
  const r = Math.min(0.99, Math.max(0, products / squares));
  const independent = Math.max(1, (count * (1 - r)) / (1 + r) - m);
  return ((squares / count) * count) / independent;
}

/** Gauss–Jordan with pivots; undefined where a pivot is nought beside the column's own size. */
function inverted(matrix: readonly Float64Array[]): number[][] | undefined {
  const m = matrix.length;
  // Scaled to a unit diagonal first, so that small columns are no singular ones
  const scale = matrix.map((row, i) => (row[i]! > 0 ? 1 / Math.sqrt(row[i]!) : 0));
  if (scale.includes(0)) return undefined;
  const rows = matrix.map((row, i) => [
    ...Array.from(row, (each, j) => each * scale[i]! * scale[j]!),
    ...Array.from({ length: m }, (_, j) => (i === j ? 1 : 0)),
  ]);
  for (let k = 0; k < m; k++) {
    let best = k;
    for (let i = k + 1; i < m; i++)
      if (Math.abs(rows[i]![k]!) > Math.abs(rows[best]![k]!)) best = i;
    if (Math.abs(rows[best]![k]!) < 1e-10) return undefined;
    [rows[k], rows[best]] = [rows[best]!, rows[k]!];
    const pivot = rows[k]!;
    const lead = pivot[k]!;
    for (let j = 0; j < 2 * m; j++) pivot[j]! /= lead;
    for (let i = 0; i < m; i++) {
      const factor = rows[i]![k]!;
      if (i === k || factor === 0) continue;
      for (let j = 0; j < 2 * m; j++) rows[i]![j]! -= factor * pivot[j]!;
    }
  }
  return rows.map((row, i) => row.slice(m).map((each, j) => each * scale[i]! * scale[j]!));
}
