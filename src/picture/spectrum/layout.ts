import { textWidth } from '../text/measure.ts';
import { AXES, HEIGHTS } from './axis.ts';
import type { Axis, HeightAxis } from './axis.ts';
import { placeLabels } from './band-labels.ts';
import type { PlacedLabel } from './band-labels.ts';
import { clampTo } from './plot.ts';
import type { Plot } from './plot.ts';
import { firstAtOrAbove, valueAt } from './series.ts';
import type { Series } from './series.ts';
import { MOST_TRACES } from './spectrum-view.ts';
import type { BandShown, SpectrumView, TraceShown } from './spectrum-view.ts';
import { placeEnds } from './trace-ends.ts';
import type { TraceEnd } from './trace-ends.ts';
import { axisNumber, ticksIn } from './ticks.ts';
import type { Tick } from './ticks.ts';
import { placeWindows } from './window-lanes.ts';
import type { PlacedWindow } from './window-lanes.ts';
import { xTicks } from './x-ticks.ts';
import type { XTick } from './x-ticks.ts';
import { stretchOf, valuesIn, xScale } from './x-scale.ts';
import type { ScaleKind, Stretch, XScale } from './x-scale.ts';
import { yRangeOf } from './y-range.ts';

export interface LayoutOptions {
  /** In px, of the whole picture. */
  readonly width: number;
  readonly height: number;
  readonly scale: ScaleKind;
  readonly decimal: '.' | ',';
  /** What is seen; the whole range if it is not said. */
  readonly stretch?: Stretch;
  /** The height follows what is seen. */
  readonly fitHeight?: boolean;
  /** Traces that are not drawn, by id. */
  readonly hidden?: ReadonlySet<string>;
  /** px kept free over everything, for a heading. */
  readonly headroom?: number;
}

export interface Layout {
  readonly width: number;
  readonly height: number;
  readonly narrow: boolean;
  readonly axis: Axis;
  readonly heights: HeightAxis;
  readonly scale: XScale;
  readonly stretch: Stretch;
  /** Where curves are drawn. */
  readonly plot: Plot;
  /** The plot with the strip of band labels: what the axis stands under. */
  readonly frame: Plot;
  readonly xTicks: readonly XTick[];
  readonly yTicks: readonly Tick[];
  readonly xOf: (x: number) => number;
  readonly valueAtPx: (px: number) => number;
  /** From y of a trace, absorbance for an infrared one. */
  readonly yOf: (y: number) => number;
  /** From what the axis shows: percent, absorbance. */
  readonly heightOf: (shown: number) => number;
  readonly traces: readonly TraceShown[];
  readonly series: ReadonlyMap<string, Series>;
  readonly windows: readonly PlacedWindow[];
  readonly labels: readonly PlacedLabel[];
  /** Bands within what is seen that have no label for want of room. */
  readonly unlabelled: number;
  readonly tips: ReadonlyMap<string, number>;
  readonly ends: readonly TraceEnd[];
  readonly regions: readonly {
    readonly left: number;
    readonly right: number;
    readonly label: string;
  }[];
}

export const NARROW_BELOW = 620;
export const LANE = 30;
const STRIP = 54;
const AXIS_ROOM = 44;
const NAMES = 27;

/** Where everything of a picture stands. Pure arithmetic: nothing here knows how it is drawn. */
export function layoutOf(
  view: SpectrumView,
  series: ReadonlyMap<string, Series>,
  options: LayoutOptions,
): Layout {
  const { width, height, decimal, hidden, headroom = 0 } = options;
  const axis = AXES[view.axis ?? 'wavenumber'];
  const heights = HEIGHTS[view.yAxis];
  const scale = xScale(axis, options.scale);
  const stretch = options.stretch ?? stretchOf(scale, view.range);
  const narrow = width < NARROW_BELOW;
  const traces = view.traces.slice(0, MOST_TRACES).filter(({ id }) => hidden?.has(id) !== true);
  const shown = traces.flatMap(({ id }) => series.get(id) ?? []);
  const fitted = options.fitHeight ? valuesIn(scale, stretch) : undefined;
  const yRange = yRangeOf(shown, heights, fitted);
  const yTicks = ticksIn(yRange.low, yRange.high, height < 380 ? 5 : 7, decimal);
  const left = axis.bare
    ? 8
    : 10 + Math.max(18, ...yTicks.map(({ text }) => textWidth(text, { size: 13 })));
  const right = width - endRoom(traces, narrow);
  const across = crossing(scale, stretch, left, right);
  const { xOf } = across;
  const most = Math.floor((height - headroom - 240) / LANE);
  const lanes = lanesFor(view, scale, { left, right }, Math.max(0, Math.min(narrow ? 4 : 5, most)));
  const windows = placeWindows(
    view.windows,
    ({ low, high }) => sorted(xOf(low), xOf(high)),
    { left, right },
    lanes,
  );
  const frame: Plot = {
    left,
    right,
    top: headroom + (lanes > 0 ? lanes * LANE + 4 : 0) + NAMES,
    bottom: height - AXIS_ROOM,
  };
  const plot = plotIn(frame, view.bands.length > 0 ? STRIP : 0, heights.down);
  const heightOf = (value: number) =>
    plot.bottom -
    ((value - yRange.low) / (yRange.high - yRange.low || 1)) * (plot.bottom - plot.top);
  const yOf = (y: number) => heightOf(heights.of(y));
  const base = {
    width,
    height,
    narrow,
    axis,
    heights,
    scale,
    stretch,
    plot,
    frame,
    traces,
    series,
  };
  return {
    ...base,
    ...across,
    yTicks,
    yOf,
    heightOf,
    windows,
    xTicks: xTicks(scale, stretch, xOf, (right - left) / (narrow ? 40 : 64), decimal),
    ...labelsOf(view, base, xOf, yOf, decimal),
    ends: narrow ? [] : placeEnds(traces, series, { plot, valueAtPx: across.valueAtPx, yOf }),
    regions: regionsOf(view, plot, xOf),
  };
}

function crossing(scale: XScale, { from, to }: Stretch, left: number, right: number) {
  const perPlace = (right - left) / (to - from);
  return {
    xOf: (x: number) => left + (scale.placeOf(x) - from) * perPlace,
    valueAtPx: (px: number) => scale.valueAt(from + (px - left) / perPlace),
  };
}

/**
 * How many lanes the windows need at most, of the whole range and of any part of it: the plot under
 * them does not jump when one comes closer or moves along.
 */
function lanesFor(
  { windows, range }: SpectrumView,
  scale: XScale,
  { left, right }: { readonly left: number; readonly right: number },
  most: number,
): number {
  const { xOf } = crossing(scale, stretchOf(scale, range), left, right);
  const placed = placeWindows(
    windows,
    ({ low, high }) => sorted(xOf(low), xOf(high)),
    { left, right },
    most,
  );
  const deepest = windows.map(
    ({ low }) => windows.filter((other) => other.low <= low && other.high >= low).length,
  );
  return Math.min(most, Math.max(0, ...placed.map(({ lane }) => lane + 1), ...deepest));
}

const plotIn = (frame: Plot, strip: number, down: boolean): Plot =>
  down ? { ...frame, bottom: frame.bottom - strip } : { ...frame, top: frame.top + strip };

function labelsOf(
  view: SpectrumView,
  { traces, series, axis, scale, stretch, plot }: LabelPlace,
  xOf: (x: number) => number,
  yOf: (y: number) => number,
  decimal: '.' | ',',
): Pick<Layout, 'labels' | 'unlabelled' | 'tips'> {
  const seen = valuesIn(scale, stretch);
  const first = traces[0] === undefined ? undefined : series.get(traces[0].id);
  const inSight = view.bands.filter(({ position }) => position >= seen[0] && position <= seen[1]);
  const wishes = inSight.map((band) => ({
    id: band.id,
    text: axisNumber(band.position, axis.decimals, decimal),
    x: xOf(band.position),
    rank: band.height,
    selected: band.selected === true,
  }));
  const { placed, left: unlabelled } = placeLabels(wishes, plot.left, plot.right);
  const tips = inSight.map(
    (band) => [band.id, clampTo(plot, yOf(tipOf(first, band, axis.sticks)))] as const,
  );
  return { labels: placed, unlabelled, tips: new Map(tips) };
}

type LabelPlace = Pick<Layout, 'traces' | 'series' | 'axis' | 'scale' | 'stretch' | 'plot'>;

function regionsOf({ regions }: SpectrumView, { left, right }: Plot, xOf: (x: number) => number) {
  return regions.flatMap(({ low, high, label }) => {
    const [a, b] = sorted(xOf(low), xOf(high));
    if (b <= left || a >= right) return [];
    return [{ left: Math.max(left, a), right: Math.min(right, b), label }];
  });
}

/** Half of the last number of the axis, which stands under the edge of the plot. */
const LAST_NUMBER_px = 18;

/** To the right of the plot each trace is named where it ends; one alone needs no name. */
function endRoom(traces: readonly TraceShown[], narrow: boolean): number {
  if (narrow || traces.length < 2) return LAST_NUMBER_px;
  const widest = Math.max(...traces.map(({ label }) => textWidth(label, { size: 13 })));
  return Math.min(190, widest) + 54;
}

const sorted = (a: number, b: number): readonly [number, number] => (a < b ? [a, b] : [b, a]);

/** The curve at a band, which may lie beside the middle of its highest point by a little. */
function tipOf(series: Series | undefined, { position, height }: BandShown, stick: boolean) {
  if (series === undefined) return height;
  if (!stick) return valueAt(series, position) ?? height;
  const i = firstAtOrAbove(series.x, position - 1e-6);
  return series.y[i] ?? height;
}
