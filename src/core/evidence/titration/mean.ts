import type { Uncertain } from '../../quantity/uncertain.ts';
import { measured, scale, standardUncertainty, subtract, sum } from '../../quantity/uncertain.ts';

/**
 * The mean of repeated results. Where they scatter more than their own uncertainties explain, the
 * excess of s²/n is added as one more part, named `id` (GUM 4.2 and F.1.1.2).
 */
export function meanOf(values: readonly Uncertain[], id: string): Uncertain {
  const n = values.length;
  const mean = scale(sum(values), 1 / n);
  if (n < 2) return mean;
  const squares = values.reduce((all, { value }) => all + (value - mean.value) ** 2, 0);
  const explained = values.reduce(
    (all, value) => all + standardUncertainty(subtract(value, mean)) ** 2,
    0,
  );
  const extra = (squares - explained) / (n - 1) / n;
  return extra > 0 ? sum([mean, measured(id, 0, Math.sqrt(extra))]) : mean;
}
