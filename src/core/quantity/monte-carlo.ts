import type { Random } from './random.ts';
import { seededRandom } from './random.ts';

export type Shape = 'normal' | 'rectangular' | 'triangular';

/** An independent input: its best value, its standard uncertainty and the shape of its spread. */
export interface MonteCarloInput {
  readonly id: string;
  readonly value: number;
  readonly u: number;
  readonly shape: Shape;
}

export interface MonteCarloResult {
  readonly mean: number;
  /** Standard deviation of the draws: the standard uncertainty. */
  readonly u: number;
  /** Ends of the 95 % interval, as much probability below as above it. */
  readonly low: number;
  readonly high: number;
  /** Draws that gave a finite number; the others are left out. */
  readonly n: number;
}

/** A draw at a time: one value an input, in their order. The array is used again: keep nothing. */
export type RowModel = (draw: Float64Array) => number;

/** Many draws at a time: a column an input; the model fills `out` to the length of the columns. */
export type ColumnModel = (columns: readonly Float64Array[], out: Float64Array) => void;

const BATCH = 4096;
const COVERAGE = 0.95;

/**
 * Propagates distributions by drawing them (JCGM 101:2008, GUM supplement 1). The same seed gives
 * the same result. `n` draws; 10⁶ settle two figures of the interval (7.2.3 there).
 */
export function monteCarlo(
  inputs: readonly MonteCarloInput[],
  model: RowModel,
  n: number,
  seed: number,
): MonteCarloResult {
  const draw = new Float64Array(inputs.length);
  const byRow: ColumnModel = (columns, out) => {
    for (let i = 0; i < out.length; i++) {
      for (let j = 0; j < columns.length; j++) draw[j] = columns[j]![i]!;
      out[i] = model(draw);
    }
  };
  return monteCarloColumns(inputs, byRow, n, seed);
}

/** As `monteCarlo`, with a model that works on whole columns. */
export function monteCarloColumns(
  inputs: readonly MonteCarloInput[],
  model: ColumnModel,
  n: number,
  seed: number,
): MonteCarloResult {
  const random = seededRandom(seed);
  const count = Math.max(0, Math.floor(n)) || 0;
  const results = new Float64Array(count);
  const whole = inputs.map(() => new Float64Array(BATCH));
  for (let start = 0; start < count; start += BATCH) {
    const size = Math.min(BATCH, count - start);
    const columns = size === BATCH ? whole : whole.map((column) => column.subarray(0, size));
    columns.forEach((column, j) => FILL[inputs[j]!.shape](column, inputs[j]!, random));
    model(columns, results.subarray(start, start + size));
  }
  return summary(results);
}

const FILL: Readonly<
  Record<Shape, (column: Float64Array, input: MonteCarloInput, random: Random) => void>
> = {
  normal(column, { value, u }, { normal }) {
    for (let i = 0; i < column.length; i++) column[i] = value + u * normal();
  },
  rectangular(column, { value, u }, { uniform }) {
    const width = 2 * u * Math.sqrt(3);
    for (let i = 0; i < column.length; i++) column[i] = value + width * (uniform() - 0.5);
  },
  triangular(column, { value, u }, { uniform }) {
    const halfWidth = u * Math.sqrt(6);
    for (let i = 0; i < column.length; i++) column[i] = value + halfWidth * (uniform() - uniform());
  },
};

function summary(results: Float64Array): MonteCarloResult {
  let kept = 0;
  let mean = 0;
  for (const result of results) {
    if (!Number.isFinite(result)) continue;
    results[kept++] = result;
    mean += result;
  }
  mean /= kept;
  let squares = 0;
  for (let i = 0; i < kept; i++) squares += (results[i]! - mean) ** 2;
  const [low, high] = symmetricInterval(results.subarray(0, kept));
  return { mean, u: kept > 1 ? Math.sqrt(squares / (kept - 1)) : Number.NaN, low, high, n: kept };
}

/** JCGM 101:2008, 7.7.2: with q = pM draws inside, (M − q)/2 of them lie below. */
function symmetricInterval(values: Float64Array): [number, number] {
  const n = values.length;
  if (n === 0) return [Number.NaN, Number.NaN];
  const inside = Math.floor(COVERAGE * n + 0.5);
  const below = Math.max(Math.floor((n - inside + 1) / 2), 1);
  const low = select(values, below - 1, 0);
  return [low, select(values, Math.min(below + inside, n) - 1, below - 1)];
}

/** The k-th smallest (from 0), by partition about the middle one of three; reorders the values. */
function select(values: Float64Array, k: number, from: number): number {
  let left = from;
  let right = values.length - 1;
  while (left < right) {
    const middle = (left + right) >>> 1;
    if (values[middle]! < values[left]!) swap(values, left, middle);
    if (values[right]! < values[left]!) swap(values, left, right);
    if (values[right]! < values[middle]!) swap(values, middle, right);
    const pivot = values[middle]!;
    let i = left;
    let j = right;
    while (i <= j) {
      while (values[i]! < pivot) i++;
      while (values[j]! > pivot) j--;
      if (i <= j) swap(values, i++, j--);
    }
    if (k <= j) right = j;
    else if (k >= i) left = i;
    else break;
  }
  return values[k]!;
}

function swap(values: Float64Array, i: number, j: number): void {
  const kept = values[i]!;
  values[i] = values[j]!;
  values[j] = kept;
}
