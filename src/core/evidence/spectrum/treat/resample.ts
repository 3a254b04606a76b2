/**
 * Straight lines between the points, at each of `at`; level beyond the ends. Both x and `at` rise.
 */
export function interpolate(x: Float64Array, y: Float64Array, at: Float64Array): Float64Array {
  const values = new Float64Array(at.length);
  const last = x.length - 1;
  let j = 0;
  for (let i = 0; i < at.length; i++) {
    const place = at[i]!;
    while (j < last - 1 && x[j + 1]! <= place) j++;
    if (last < 1 || place <= x[0]!) values[i] = y[0] ?? Number.NaN;
    else if (place >= x[last]!) values[i] = y[last]!;
    else {
      const share = (place - x[j]!) / (x[j + 1]! - x[j]!);
      values[i] = y[j]! + share * (y[j + 1]! - y[j]!);
    }
  }
  return values;
}

/** An even grid with both ends inside [from, to], a whole number of steps apart. */
export function evenGrid(from: number, to: number, step: number): Float64Array {
  const count = Math.max(1, Math.floor((to - from) / step + 1e-9) + 1);
  return Float64Array.from({ length: count }, (_, i) => from + i * step);
}

/**
 * y on another grid. Where the new grid is as fine as the old: straight lines between the points,
 * so that its own grid gives y back. Where it is coarser: the mean of those lines over each new
 * step, so that areas are kept and a narrow band is not stepped over. Nothing is known beyond the
 * ends: NaN there.
 */
export function resample(x: Float64Array, y: Float64Array, at: Float64Array): Float64Array {
  const low = x[0] ?? Infinity;
  const high = x.at(-1) ?? -Infinity;
  const coarser = meanStep(at) > 1.5 * meanStep(x);
  const values = coarser ? meansOf(x, y, at) : interpolate(x, y, at);
  const slack = 1e-9 * Math.max(Math.abs(low), Math.abs(high));
  for (let i = 0; i < at.length; i++)
    if (at[i]! < low - slack || at[i]! > high + slack) values[i] = Number.NaN;
  return values;
}

function meanStep(x: Float64Array): number {
  return x.length < 2 ? 0 : (x.at(-1)! - x[0]!) / (x.length - 1);
}

/** The mean over the half steps to either side, cut off at the ends of x. */
function meansOf(x: Float64Array, y: Float64Array, at: Float64Array): Float64Array {
  const area = new Float64Array(x.length);
  for (let i = 1; i < x.length; i++)
    area[i] = area[i - 1]! + ((y[i]! + y[i - 1]!) / 2) * (x[i]! - x[i - 1]!);
  const edges = new Float64Array(at.length + 1);
  for (let i = 1; i < at.length; i++) edges[i] = (at[i - 1]! + at[i]!) / 2;
  edges[0] = at[0]! - (edges[1]! - at[0]!);
  edges[at.length] = at.at(-1)! + (at.at(-1)! - edges[at.length - 1]!);
  for (let i = 0; i < edges.length; i++) edges[i] = Math.min(x.at(-1)!, Math.max(x[0]!, edges[i]!));
  const upTo = areaUpTo(x, y, area, edges);
  const means = new Float64Array(at.length);
  for (let i = 0; i < at.length; i++) {
    const width = edges[i + 1]! - edges[i]!;
    means[i] = width > 0 ? (upTo[i + 1]! - upTo[i]!) / width : 0;
  }
  return means;
}

function areaUpTo(x: Float64Array, y: Float64Array, area: Float64Array, edges: Float64Array) {
  const upTo = new Float64Array(edges.length);
  let j = 0;
  for (let i = 0; i < edges.length; i++) {
    while (j < x.length - 2 && x[j + 1]! < edges[i]!) j++;
    const d = edges[i]! - x[j]!;
    const slope = (y[j + 1]! - y[j]!) / (x[j + 1]! - x[j]!);
    upTo[i] = area[j]! + d * (y[j]! + (slope * d) / 2);
  }
  return upTo;
}
