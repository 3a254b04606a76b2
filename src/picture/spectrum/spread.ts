/**
 * Places as near as can be (least squares) to those wanted, in the same order, each at least
 * `gaps[i]` after the one before, between `low` and `high`. Pooling of adjacent violators on the
 * places less the room taken before them (R. E. Barlow et al., Statistical Inference under Order
 * Restrictions, 1972). Where there is no room for all, they run on beyond `high`.
 *
 * @param wanted rising
 * @param gaps one for each place; the first is not used
 */
export function spread(
  wanted: readonly number[],
  gaps: readonly number[],
  low: number,
  high: number,
): number[] {
  let taken = 0;
  const before = wanted.map((_, i) => (taken += i === 0 ? 0 : gaps[i]!));
  const pools: { sum: number; count: number }[] = [];
  const mean = ({ sum, count }: { sum: number; count: number }) => sum / count;
  wanted.forEach((place, i) => {
    let pool = { sum: place - before[i]!, count: 1 };
    for (let last = pools.at(-1); last && mean(last) >= mean(pool); last = pools.at(-1)) {
      pool = { sum: last.sum + pool.sum, count: last.count + pool.count };
      pools.pop();
    }
    pools.push(pool);
  });
  const most = Math.max(low, high - taken);
  const free = pools.flatMap((pool) => Array.from({ length: pool.count }, () => mean(pool)));
  return free.map((place, i) => Math.min(most, Math.max(low, place)) + before[i]!);
}
