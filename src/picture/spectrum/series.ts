import type { TraceShown } from './spectrum-view.ts';

/** The values of a trace with, for stretches of 16, 32, 64 … of them, where the extremes stand. */
export interface Series {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** For each point, how many gaps lie before it: no line joins points of two numbers. */
  readonly run: Uint16Array;
  /** By level: the index of the lowest and of the highest value of each stretch. */
  readonly lows: readonly Uint32Array[];
  readonly highs: readonly Uint32Array[];
}

const LEAST = 16;

/** Made once a trace; every picture of any part of it is then a matter of its width. */
export function seriesOf(trace: TraceShown): Series {
  const { x, y, run } = finiteOf(trace);
  const lows: Uint32Array[] = [];
  const highs: Uint32Array[] = [];
  for (let size = LEAST; size <= y.length; size *= 2) {
    const count = Math.floor(y.length / size);
    const low = new Uint32Array(count);
    const high = new Uint32Array(count);
    const below = { low: lows.at(-1), high: highs.at(-1) };
    for (let n = 0; n < count; n++) {
      if (below.low === undefined || below.high === undefined) {
        const ends = scan(y, n * size, (n + 1) * size);
        low[n] = ends.low;
        high[n] = ends.high;
      } else {
        const [a, b] = [below.low[2 * n]!, below.low[2 * n + 1]!];
        const [c, d] = [below.high[2 * n]!, below.high[2 * n + 1]!];
        low[n] = y[b]! < y[a]! ? b : a;
        high[n] = y[d]! > y[c]! ? d : c;
      }
    }
    lows.push(low);
    highs.push(high);
  }
  return { x, y, run, lows, highs };
}

function finiteOf({ x, y, gaps = [] }: TraceShown): Pick<Series, 'x' | 'y' | 'run'> {
  const size = Math.min(x.length, y.length);
  const kept = { x: new Float64Array(size), y: new Float64Array(size), run: new Uint16Array(size) };
  const starts = gaps.map(([low, high]) => Math.min(low, high)).sort((a, b) => a - b);
  let count = 0;
  let run = 0;
  let passed = 0;
  let broken = false;
  for (let i = 0; i < size; i++) {
    const [at, value] = [x[i]!, y[i]!];
    if (!Number.isFinite(value) || !Number.isFinite(at)) {
      broken = count > 0;
      continue;
    }
    while (passed < starts.length && starts[passed]! < at) {
      broken ||= count > 0;
      passed++;
    }
    if (broken) run = Math.min(run + 1, 65_535);
    broken = false;
    kept.x[count] = at;
    kept.y[count] = value;
    kept.run[count++] = run;
  }
  return {
    x: kept.x.subarray(0, count),
    y: kept.y.subarray(0, count),
    run: kept.run.subarray(0, count),
  };
}

interface Extremes {
  low: number;
  high: number;
}

function scan(y: Float64Array, from: number, to: number): Extremes {
  let [low, high] = [from, from];
  for (let i = from + 1; i < to; i++) {
    if (y[i]! < y[low]!) low = i;
    if (y[i]! > y[high]!) high = i;
  }
  return { low, high };
}

/** Where the lowest and the highest value stand among the points `from` to below `to`. */
export function extremesIn(series: Series, from: number, to: number): Extremes {
  const { y, lows, highs } = series;
  if (to - from < 2 * LEAST) return scan(y, from, to);
  let [low, high] = [from, from];
  let i = from;
  while (i < to) {
    let level = -1;
    let size = 1;
    while (level + 1 < lows.length) {
      const next = LEAST * 2 ** (level + 1);
      if (i % next !== 0 || i + next > to) break;
      level++;
      size = next;
    }
    const [a, b] = level < 0 ? [i, i] : [lows[level]![i / size]!, highs[level]![i / size]!];
    if (y[a]! < y[low]!) low = a;
    if (y[b]! > y[high]!) high = b;
    i += size;
  }
  return { low, high };
}

/** The first point whose x is at or above a value: the count of points where there is none. */
export function firstAtOrAbove(x: Float64Array, value: number, from = 0, below = x.length): number {
  let low = from;
  let high = below;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (x[middle]! < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The points within a range, and one more on each side so that lines run to its edges. */
export function pointsIn({ x }: Series, low: number, high: number): readonly [number, number] {
  const from = firstAtOrAbove(x, low);
  let to = firstAtOrAbove(x, high, from);
  if (x[to] === high) to++;
  return [Math.max(0, from - 1), Math.min(x.length, to + 1)];
}

/** y between the two points on each side of a value; nothing outside the trace or in a gap. */
export function valueAt({ x, y, run }: Series, value: number): number | undefined {
  const i = firstAtOrAbove(x, value);
  if (x[i] === value) return y[i];
  if (i === 0 || i >= x.length || run[i] !== run[i - 1]) return undefined;
  const share = (value - x[i - 1]!) / (x[i]! - x[i - 1]!);
  return y[i - 1]! + share * (y[i]! - y[i - 1]!);
}
