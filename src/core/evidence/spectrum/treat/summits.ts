/** A local maximum: the points of its top (more than one on a plateau) and how far it stands out. */
export interface Summit {
  readonly first: number;
  readonly last: number;
  readonly prominence: number;
}

/**
 * For each point the lowest value between it and the nearest higher one on its left (or the end),
 * in one pass over a stack of ever lower heights.
 */
function lowestBefore(y: Float64Array, order: (i: number) => number): Float64Array {
  const n = y.length;
  const lowest = new Float64Array(n);
  const stack = new Int32Array(n);
  let depth = 0;
  for (let i = 0; i < n; i++) {
    const at = order(i);
    let low = y[at]!;
    while (depth > 0 && y[stack[depth - 1]!]! <= y[at]!) {
      low = Math.min(low, lowest[stack[--depth]!]!);
    }
    lowest[at] = low;
    stack[depth++] = at;
  }
  return lowest;
}

/**
 * Every local maximum that stands out by `least` or more. The prominence is the height above the
 * higher of two saddles: the lowest point on either side before the curve rises above the summit.
 * Neither end of the curve is a summit.
 */
export function summitsOf(y: Float64Array, least: number): Summit[] {
  const n = y.length;
  const left = lowestBefore(y, (i) => i);
  const right = lowestBefore(y, (i) => n - 1 - i);
  const summits: Summit[] = [];
  for (let i = 1; i < n - 1; i++) {
    if (y[i - 1]! >= y[i]!) continue;
    let last = i;
    while (last + 1 < n && y[last + 1]! === y[i]!) last++;
    if (last + 1 < n && y[last + 1]! < y[i]!) {
      // Points of a plateau see each other's side, so each side is asked from its own end
      const prominence = y[i]! - Math.max(left[i]!, right[last]!);
      if (prominence >= least && prominence > 0) summits.push({ first: i, last, prominence });
    }
    i = last;
  }
  return summits;
}
