/** A quantile, 0 to 1, of numbers that are sorted already; NaN of none. */
export function quantileOf(sorted: Float64Array, share: number): number {
  if (sorted.length === 0) return Number.NaN;
  const place = share * (sorted.length - 1);
  const low = Math.floor(place);
  const below = sorted[low]!;
  return below + (place - low) * ((sorted[low + 1] ?? below) - below);
}

/** The median; the values are left as they are. */
export function medianOf(values: Float64Array): number {
  return quantileOf(Float64Array.from(values).sort(), 0.5);
}

/** The steps between neighbours: one fewer than x. */
export function stepsOf(x: Float64Array): Float64Array {
  const steps = new Float64Array(Math.max(0, x.length - 1));
  for (let i = 0; i < steps.length; i++) steps[i] = x[i + 1]! - x[i]!;
  return steps;
}

/** The first index whose x is not below `at`; the length where there is none. x rises. */
export function indexAt(x: Float64Array, at: number): number {
  let low = 0;
  let high = x.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (x[middle]! < at) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The index of the x nearest to `place`. x rises and has a point at least. */
export function nearestTo(x: Float64Array, place: number): number {
  const at = Math.min(x.length - 1, indexAt(x, place));
  return at > 0 && place - x[at - 1]! < x[at]! - place ? at - 1 : at;
}
