import { quantileOf, stepsOf } from './order.ts';

/** Fewer are no curve. */
export const MIN_POINTS = 50;

/** Points in rising x, every value finite. */
export interface TidyPoints {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** How many had the x of another and were averaged with it. */
  readonly merged: number;
  /** How many had no value. */
  readonly missing: number;
}

/** Two x nearer than this, relative to x, are one: the last digits of a written number. */
const SAME = 1e-9;

/** Sorted by x, what is out of range or not finite left out, equal x averaged. */
export function tidy(
  x: Float64Array,
  y: Float64Array,
  { low_percm, high_percm }: { readonly low_percm: number; readonly high_percm: number },
): TidyPoints {
  const rising = inRisingOrder(x);
  const xs = new Float64Array(x.length);
  const ys = new Float64Array(x.length);
  let [n, merged, missing, alike] = [0, 0, 0, 1];
  for (let k = 0; k < x.length; k++) {
    const i = rising === undefined ? k : rising[k]!;
    const place = x[i]!;
    if (!(place >= low_percm && place <= high_percm)) continue;
    const value = y[i]!;
    if (!Number.isFinite(value)) missing++;
    else if (n > 0 && place - xs[n - 1]! <= SAME * place) {
      merged++;
      alike++;
      ys[n - 1]! += (value - ys[n - 1]!) / alike;
    } else {
      xs[n] = place;
      ys[n] = value;
      alike = 1;
      n++;
    }
  }
  return { x: xs.slice(0, n), y: ys.slice(0, n), merged, missing };
}

/** The places in rising order of x, or undefined where they are so already. */
function inRisingOrder(x: Float64Array): Uint32Array | undefined {
  let sorted = true;
  for (let i = 1; i < x.length && sorted; i++) sorted = x[i]! >= x[i - 1]!;
  if (sorted) return undefined;
  return Uint32Array.from(x.keys()).sort((a, b) => x[a]! - x[b]!);
}

/** A step that is this many times as wide as those around it leaves a gap. */
const GAP_STEPS = 4;
const AROUND = 3;
/** In a curve drawn by hand the points stand far apart where it is straight: no gap below this. */
const DIGITISED_GAP_PERCM = 60;

/** Stretches without data inside the range. */
export function gapsOf(x: Float64Array): (readonly [from_percm: number, to_percm: number])[] {
  const steps = stepsOf(x);
  const uneven = isUneven(steps);
  const usual = quantileOf(Float64Array.from(steps).sort(), 0.9);
  const gaps: (readonly [number, number])[] = [];
  for (let i = 0; i < steps.length; i++) {
    const step = steps[i]!;
    let widest = 0;
    for (let j = Math.max(0, i - AROUND); j <= Math.min(steps.length - 1, i + AROUND); j++)
      if (j !== i) widest = Math.max(widest, steps[j]!);
    const least = uneven
      ? Math.max(GAP_STEPS * usual, DIGITISED_GAP_PERCM)
      : GAP_STEPS * Math.min(usual, widest) * (1 - 1e-9);
    if (step >= least) gaps.push([x[i]!, x[i + 1]!]);
  }
  return gaps;
}

/** Steps that jump about from one to the next, as points picked from a drawn curve do. */
export function isUneven(steps: Float64Array): boolean {
  let jumps = 0;
  for (let i = 1; i < steps.length; i++) {
    const [a, b] = [steps[i - 1]!, steps[i]!];
    if (Math.abs(a - b) > 0.3 * Math.max(a, b)) jumps++;
  }
  return jumps > 0.2 * steps.length;
}
