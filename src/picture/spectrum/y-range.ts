import type { HeightAxis } from './axis.ts';
import { extremesIn, pointsIn } from './series.ts';
import type { Series } from './series.ts';
import { roundStep } from './ticks.ts';

/** What the height of the plot runs over, in what is drawn: percent, absorbance, counts. */
export interface YRange {
  readonly low: number;
  readonly high: number;
}

/** A spike of a bad ratio may reach thousands of percent: the picture does not follow it. */
const MOST_PERCENT = 125;
/** Where there is nothing to go by. */
const EMPTY: Readonly<Record<'down' | 'up', YRange>> = {
  down: { low: 0, high: 100 },
  up: { low: 0, high: 1 },
};

/** From the lowest to the highest value of all traces, or of what is seen of them, made round. */
export function yRangeOf(
  all: readonly Series[],
  { of, down }: HeightAxis,
  seen?: readonly [low: number, high: number],
): YRange {
  const ends = all.flatMap((series) => {
    const [from, to] = seen ? pointsIn(series, ...seen) : [0, series.x.length];
    if (to <= from) return [];
    const { low, high } = extremesIn(series, from, to);
    return [of(series.y[low]!), of(series.y[high]!)];
  });
  if (ends.length === 0) return EMPTY[down ? 'down' : 'up'];
  const [least, most] = [Math.min(...ends), Math.max(...ends)];
  return down ? percentRange(least, most, seen !== undefined) : heightRange(least, most);
}

/** Up to 100 %T at least, unless it is fitted to what is seen. */
function percentRange(least: number, most: number, fitted: boolean): YRange {
  const high = fitted ? most : Math.max(100, most);
  const span = Math.max(high - least, 2);
  const step = roundStep(span, 6) / 2;
  return {
    low: Math.max(least < 0 ? -10 : 0, Math.floor((least - 0.02 * span) / step) * step),
    high: Math.min(MOST_PERCENT, fitted ? Math.ceil(high / step) * step : high),
  };
}

function heightRange(least: number, most: number): YRange {
  const span = Math.max(most - Math.min(0, least), 1e-9);
  const step = roundStep(span, 6) / 2;
  return {
    low: least < -0.01 * span ? Math.floor(least / step) * step : 0,
    high: Math.ceil((most + 0.03 * span) / step) * step,
  };
}
