/** Times are taken inside one process on a monotonic clock; nothing here ever fails because it is slow. */

/** How long `work` takes each time, in ms. `prepare` is run before each and is not counted. */
export function timesOf<T>(
  repeats: number,
  work: (input: T) => unknown,
  prepare: (n: number) => T,
): number[] {
  const times_ms: number[] = [];
  for (let n = 0; n < repeats; n++) {
    const input = prepare(n);
    const begun = performance.now();
    kept = work(input);
    times_ms.push(performance.now() - begun);
  }
  return times_ms;
}

/** The last result of any work, so that no compiler may leave the work out. */
export let kept: unknown;

/** The same work over and over: first for `warm_ms`, uncounted, then `repeats` times. */
export function warmTimesOf(repeats: number, work: () => unknown, warm_ms = 400): number[] {
  const end = performance.now() + warm_ms;
  while (performance.now() < end) kept = work();
  return timesOf(repeats, work, () => undefined);
}

/** A quantile, 0 to 1, between the two nearest of the ordered values. */
export function quantile(values: readonly number[], share: number): number {
  const ordered = [...values].sort((a, b) => a - b);
  const place = share * (ordered.length - 1);
  const low = Math.floor(place);
  const below = ordered[low] ?? Number.NaN;
  const above = ordered[Math.ceil(place)] ?? below;
  return below + (place - low) * (above - below);
}

export const median = (values: readonly number[]): number => quantile(values, 0.5);
