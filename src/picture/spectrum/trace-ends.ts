import type { Plot } from './plot.ts';
import { clampTo } from './plot.ts';
import { valueAt } from './series.ts';
import type { Series } from './series.ts';
import type { TraceShown } from './spectrum-view.ts';
import { spread } from './spread.ts';

/** The name of a trace beside the place where it leaves the plot. */
export interface TraceEnd {
  readonly trace: TraceShown;
  /** Where the curve ends, and where its name stands: px from the top. */
  readonly from: number;
  readonly y: number;
}

const LINE = 18;

export function placeEnds(
  traces: readonly TraceShown[],
  series: ReadonlyMap<string, Series>,
  place: {
    readonly plot: Plot;
    readonly valueAtPx: (px: number) => number;
    readonly yOf: (y: number) => number;
  },
): TraceEnd[] {
  const { plot, valueAtPx, yOf } = place;
  if (traces.length < 2) return [];
  const ends = traces
    .map((trace) => {
      const y = lastSeen(series.get(trace.id), plot, valueAtPx);
      const from = y === undefined ? plot.bottom : yOf(y);
      return { trace, from: clampTo(plot, from) };
    })
    .sort((a, b) => a.from - b.from);
  const places = spread(
    ends.map(({ from }) => from),
    ends.map(() => LINE),
    plot.top + 4,
    plot.bottom - 4,
  );
  return ends.map((end, i) => ({ ...end, y: places[i]! }));
}

/** The value at the right edge, or at the first place left of it that has one. */
function lastSeen(
  series: Series | undefined,
  { left, right }: Plot,
  valueAtPx: (px: number) => number,
): number | undefined {
  if (series === undefined) return undefined;
  for (let px = right; px > left; px -= 4) {
    const y = valueAt(series, valueAtPx(px));
    if (y !== undefined) return y;
  }
  return undefined;
}
