import { median, quantile } from './measure.ts';

export interface Timed {
  readonly what: string;
  readonly times_ms: readonly number[];
}

/** One thing measured, and beside it something everybody knows the speed of, measured in the same run. */
export interface Item extends Timed {
  /** Of the median. Absent where the design sets none. */
  readonly budget_ms?: number;
  /** Of the 95th percentile, where the design sets one. */
  readonly budget95_ms?: number;
  readonly baseline: Timed;
  /** Said under the figures: what was counted, other quantiles, what was not there. */
  readonly remarks: readonly string[];
}

export interface Sized {
  readonly what: string;
  readonly size_kB: number;
}

/** Something weighed instead of timed, beside something known. */
export interface SizeItem extends Sized {
  readonly budget_kB: number;
  readonly baseline: Sized;
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

function usedText(value: number, budget: number): string {
  const share = Math.round((100 * value) / budget);
  return `${share} % of it used${share > 100 ? ': OVER' : ''}`;
}

function budgetText({ budget_ms, budget95_ms, times_ms }: Item): string {
  const ofMedian =
    budget_ms === undefined
      ? 'none set'
      : `${timeText(budget_ms)}, ${usedText(median(times_ms), budget_ms)}`;
  if (budget95_ms === undefined) return ofMedian;
  const high = quantile(times_ms, 0.95);
  return `${ofMedian}; 95th percentile ${timeText(high)} of ${timeText(budget95_ms)}, ${usedText(high, budget95_ms)}`;
}

export function itemText(item: Item | SizeItem): string {
  const { what, remarks } = item;
  const figures = 'size_kB' in item ? sizeFigures(item) : timeFigures(item);
  return [what, ...figures, ...remarks.map((remark) => `  ${remark}`)].join('\n');
}

function timeFigures(item: Item): string[] {
  const { times_ms, baseline } = item;
  return [
    `  ratio     ${ratioText(ratioOf(item))} × ${baseline.what}`,
    `  median    ${timeText(median(times_ms))}   ${spreadText(times_ms)}`,
    `  baseline  ${timeText(median(baseline.times_ms))}   ${spreadText(baseline.times_ms)}`,
    `  budget    ${budgetText(item)}`,
  ];
}

const sizeText = (size_kB: number) => `${size_kB.toPrecision(3)} kB`;

function sizeFigures({ size_kB, budget_kB, baseline }: SizeItem): string[] {
  return [
    `  ratio     ${ratioText(size_kB / baseline.size_kB)} × ${baseline.what}`,
    `  size      ${sizeText(size_kB)}`,
    `  baseline  ${sizeText(baseline.size_kB)}`,
    `  budget    ${sizeText(budget_kB)}, ${usedText(size_kB, budget_kB)}`,
  ];
}
