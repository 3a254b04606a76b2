import { linearFit } from './linear-fit.ts';
import { indexAt } from './order.ts';
import { interpolate } from './resample.ts';

/** A curve with its grid; x rises. */
export interface Curve {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

export interface DifferenceOptions {
  /** How much of b to take off. Absent: fitted. */
  readonly factor?: number;
  /** What else is in a: fitted beside b, and left in the residual's baseline only. */
  readonly others?: readonly Curve[];
  /** Where to fit; everywhere that both curves cover unless said. */
  readonly regions?: readonly (readonly [from_percm: number, to_percm: number])[];
  /** Stretches to leave out of the fit: saturated bands, air. */
  readonly without?: readonly (readonly [from_percm: number, to_percm: number])[];
}

export interface Difference {
  /** How many times b is in a. */
  readonly factor: number;
  /** Its standard uncertainty, from what the fit leaves; 0 where the factor was given. */
  readonly u: number;
  /** The factors of the others, in their order. */
  readonly others: readonly number[];
  /** The grid of a, as far as b covers it. */
  readonly x: Float64Array;
  /** a − factor·b: what else is in a, its baseline included. */
  readonly residual: Float64Array;
  /** Of the fit: what neither b, the others nor a straight baseline explain, root mean square. */
  readonly left: number;
}

/**
 * b taken off a. The factor is found by least squares over the fitted places, beside a straight
 * baseline and the other curves. Without the others, bands of a that b does not have pull the factor
 * up: give `regions` where only b absorbs. Undefined where the curves share too little.
 */
export function differenceOf(
  a: Curve,
  b: Curve,
  { factor, others = [], regions, without = [] }: DifferenceOptions = {},
): Difference | undefined {
  const curves = [b, ...others];
  const low = Math.max(...curves.map(({ x }) => x[0] ?? Infinity));
  const high = Math.min(...curves.map(({ x }) => x.at(-1) ?? -Infinity));
  const first = indexAt(a.x, low);
  const past = indexAt(a.x, high + 1e-9);
  if (past - first < 20) return undefined;
  const [x, y] = [a.x.subarray(first, past), a.y.subarray(first, past)];
  const columns = curves.map((curve) => interpolate(curve.x, curve.y, x));
  const off = (k: number): Float64Array => y.map((each, i) => each - k * columns[0]![i]!);
  const weights = weightsOf(x, regions, without);
  const ones = new Float64Array(x.length).fill(1);
  const tilt = x.map((each) => (each - low) / (high - low));
  const free = factor === undefined ? columns : columns.slice(1);
  const target = factor === undefined ? y : off(factor);
  const fit = linearFit([...free, ones, tilt], target, weights);
  if (fit === undefined) return undefined;
  const values = fit.values.slice(0, free.length);
  const k = factor ?? values[0]!;
  return {
    factor: k,
    u: factor === undefined ? fit.u[0]! : 0,
    others: factor === undefined ? values.slice(1) : values,
    x,
    residual: off(k),
    left: rootMeanSquare(fit.residual, weights),
  };
}

function weightsOf(
  x: Float64Array,
  regions: DifferenceOptions['regions'],
  without: NonNullable<DifferenceOptions['without']>,
): Float64Array {
  const inside = (place: number, all: typeof without): boolean =>
    all.some(([from, to]) => place >= from && place <= to);
  return x.map((place) =>
    (regions === undefined || inside(place, regions)) && !inside(place, without) ? 1 : 0,
  );
}

function rootMeanSquare(values: Float64Array, weights: Float64Array): number {
  let [sum, n] = [0, 0];
  for (let i = 0; i < values.length; i++) {
    sum += weights[i]! * values[i]! ** 2;
    n += weights[i]!;
  }
  return Math.sqrt(sum / Math.max(1, n));
}
