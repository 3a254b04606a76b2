import { median, quantile } from './measure.ts';

export interface Timed {
  readonly what: string;
  readonly times_ms: readonly number[];
}

/** One thing measured, and beside it something everybody knows the speed of, measured in the same run. */
export interface Item extends Timed {
  /** Absent where the design sets none. */
  readonly budget_ms?: number;
  readonly baseline: Timed;
  /** Said under the figures: what was counted, other quantiles, what was not there. */
  readonly remarks: readonly string[];
}

/** A time in the unit that reads best, to three figures. */
export function timeText(time_ms: number): string {
  if (!Number.isFinite(time_ms)) return '–';
  if (time_ms >= 1000) return `${(time_ms / 1000).toPrecision(3)} s`;
  if (time_ms >= 1) return `${time_ms >= 100 ? Math.round(time_ms) : time_ms.toPrecision(3)} ms`;
  return `${time_ms >= 0.1 ? Math.round(time_ms * 1000) : (time_ms * 1000).toPrecision(3)} µs`;
}

export function ratioOf(item: Item): number {
  return median(item.times_ms) / median(item.baseline.times_ms);
}

export function ratioText(ratio: number): string {
  if (!Number.isFinite(ratio)) return '–';
  return ratio >= 100 ? String(Math.round(ratio)) : ratio.toPrecision(3);
}

function spreadText(times_ms: readonly number[]): string {
  const [low, high] = [quantile(times_ms, 0.1), quantile(times_ms, 0.9)];
  return `${timeText(low)} to ${timeText(high)} (10th to 90th percentile of ${times_ms.length})`;
}

function budgetText({ budget_ms, times_ms }: Item): string {
  if (budget_ms === undefined) return 'none set';
  const share = Math.round((100 * median(times_ms)) / budget_ms);
  return `${timeText(budget_ms)}, ${share} % of it used${share > 100 ? ': OVER' : ''}`;
}

export function itemText(item: Item): string {
  const { what, times_ms, baseline, remarks } = item;
  const lines = [
    what,
    `  ratio     ${ratioText(ratioOf(item))} × ${baseline.what}`,
    `  median    ${timeText(median(times_ms))}   ${spreadText(times_ms)}`,
    `  baseline  ${timeText(median(baseline.times_ms))}   ${spreadText(baseline.times_ms)}`,
    `  budget    ${budgetText(item)}`,
    ...remarks.map((remark) => `  ${remark}`),
  ];
  return lines.join('\n');
}
