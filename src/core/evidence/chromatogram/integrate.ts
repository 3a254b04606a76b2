import type { Diagnostic } from '../../diagnostic.ts';
import type { MeasuredTrace } from '../spectrum/trace.ts';
import { MOST_PEAKS } from './limits.ts';
import type { ChromatogramPeak } from './schema.ts';
import { noiseOf, turningsOf } from './turnings.ts';

export interface Integration {
  /** By rising time; areas in the unit of the trace times minutes. */
  readonly peaks: readonly ChromatogramPeak[];
  readonly diagnostics: readonly Diagnostic[];
}

export interface IntegrationPolicy {
  /** A peak rises at least this many times the noise on both sides. Common practice: 10. */
  readonly overNoise: number;
  /** And this share of the highest peak. */
  readonly overHighest: number;
}

export const INTEGRATION: IntegrationPolicy = { overNoise: 10, overHighest: 0.001 };

/** Places in the arrays, both ends included. */
interface Stretch {
  readonly from: number;
  readonly top: number;
  readonly to: number;
}

/** How many points beside a group of peaks are averaged to find the baseline there. */
const BESIDE = 20;

function minutesIn(trace: MeasuredTrace): number {
  return trace.xUnit === 's' ? 1 / 60 : 1;
}

/** A straight line through two points of a curve, as a height over each place. */
function lineThrough(
  x: Float64Array,
  [x1, y1]: readonly [number, number],
  [x2, y2]: readonly [number, number],
): (i: number) => number {
  return (i) => y1 + ((x[i]! - x1) / (x2 - x1 || 1)) * (y2 - y1);
}

/**
 * From a top outward to where the signal is as low as the line between the valleys of its group,
 * and half as far again, so that the tail counts; never past the valley.
 */
function footFrom(over: (i: number) => number, top: number, valley: number, slack: number): number {
  const step = valley < top ? -1 : 1;
  const level = slack + 0.002 * over(top);
  let i = top;
  while (i !== valley && over(i) > level) i += step;
  const further = i + Math.round((i - top) / 2);
  return step < 0 ? Math.max(valley, further) : Math.min(valley, further);
}

/** Whether the valley stands above a line between the nearest lower ones: two peaks not parted. */
function isRaised(
  x: Float64Array,
  y: Float64Array,
  valleys: readonly number[],
  at: number,
  slack: number,
): boolean {
  const here = valleys[at]!;
  const lower = (i: number) => y[i]! < y[here]!;
  const left = valleys.slice(0, at).findLast(lower) ?? valleys[0]!;
  const right = valleys.slice(at + 1).find(lower) ?? valleys.at(-1)!;
  if (left === here || right === here) return false;
  const share = (x[here]! - x[left]!) / (x[right]! - x[left]!);
  return y[here]! - (y[left]! + share * (y[right]! - y[left]!)) > slack;
}

/** Peaks that touch are one group, over one straight baseline, parted by a drop at each valley. */
function groupsOf(x: Float64Array, y: Float64Array, noise: number, least: number): Stretch[][] {
  const { tops, valleys } = turningsOf(y, least);
  const slack = 5 * noise;
  const joined = (at: number): boolean => {
    if (at === 0 || at === tops.length) return false;
    const smaller = Math.min(y[tops[at - 1]!]!, y[tops[at]!]!) - y[valleys[at]!]!;
    return isRaised(x, y, valleys, at, slack + 0.01 * smaller);
  };
  const groups: Stretch[][] = [];
  let first = 0;
  for (let next = 1; next <= tops.length; next++) {
    if (next < tops.length && joined(next)) continue;
    const [start, end] = [valleys[first]!, valleys[next]!];
    const line = lineThrough(x, [x[start]!, y[start]!], [x[end]!, y[end]!]);
    const over = (i: number): number => y[i]! - line(i);
    const members = tops.slice(first, next);
    groups.push(
      members.map((top, i) => ({
        from: i === 0 ? footFrom(over, top, start, slack) : valleys[first + i]!,
        top,
        to: i === members.length - 1 ? footFrom(over, top, end, slack) : valleys[first + i + 1]!,
      })),
    );
    first = next;
  }
  return groups;
}

function meanOf(y: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i <= to; i++) sum += y[i]!;
  return sum / (to - from + 1);
}

/** A straight baseline under a group, through the means of the points beside it. */
function baselineOf(
  x: Float64Array,
  y: Float64Array,
  group: readonly Stretch[],
  room: readonly [from: number, to: number],
): (i: number) => number {
  const [start, end] = [group[0]!.from, group.at(-1)!.to];
  const left = Math.max(room[0], start - BESIDE);
  const right = Math.min(room[1], end + BESIDE);
  return lineThrough(
    x,
    [(x[left]! + x[start]!) / 2, meanOf(y, left, start)],
    [(x[end]! + x[right]!) / 2, meanOf(y, end, right)],
  );
}

/**
 * Where the signal over the baseline crosses a level, from the top outward; undefined if it never
 * does.
 */
function crossing(
  x: Float64Array,
  over: (i: number) => number,
  top: number,
  end: number,
  level: number,
): number | undefined {
  const step = end < top ? -1 : 1;
  for (let i = top; i !== end; i += step) {
    const [high, low] = [over(i), over(i + step)];
    if (low <= level && high > level)
      return x[i]! + ((high - level) / (high - low)) * (x[i + step]! - x[i]!);
  }
  return undefined;
}

/** The top of the parabola through the highest point and its neighbours, as a place on x. */
function topAt(x: Float64Array, y: Float64Array, i: number): number {
  const [a, b, c] = [y[i - 1], y[i]!, y[i + 1]];
  if (a === undefined || c === undefined || a + c - 2 * b >= 0) return x[i]!;
  const shift = (a - c) / (2 * (a + c - 2 * b));
  return x[i]! + (shift * (x[i + 1]! - x[i - 1]!)) / 2;
}

function peakOf(
  x: Float64Array,
  y: Float64Array,
  { from, top, to }: Stretch,
  baseline: (i: number) => number,
): ChromatogramPeak {
  const over = (i: number): number => y[i]! - baseline(i);
  let area = 0;
  for (let i = from; i < to; i++) area += ((over(i) + over(i + 1)) / 2) * (x[i + 1]! - x[i]!);
  const cut = (share: number): readonly [number, number] | undefined => {
    const before = crossing(x, over, top, from, share * over(top));
    const after = crossing(x, over, top, to, share * over(top));
    return before === undefined || after === undefined ? undefined : [before, after];
  };
  const retention_min = topAt(x, y, top);
  const [half, low] = [cut(0.5), cut(0.05)];
  const foot =
    low === undefined || low[0] >= retention_min
      ? undefined
      : { width_min: low[1] - low[0], front_min: retention_min - low[0] };
  return {
    retention_min,
    area,
    ...(half === undefined ? {} : { halfWidth_min: half[1] - half[0] }),
    ...(foot === undefined ? {} : { foot }),
  };
}

function curvePeaks(trace: MeasuredTrace, policy: IntegrationPolicy): ChromatogramPeak[] {
  const inMinutes = minutesIn(trace);
  const kept = [...trace.y.keys()].filter(
    (i) => Number.isFinite(trace.y[i]) && Number.isFinite(trace.x[i]),
  );
  const x = Float64Array.from(kept, (i) => trace.x[i]! * inMinutes);
  const y = Float64Array.from(kept, (i) => trace.y[i]!);
  if (y.length < 5) return [];
  const noise = noiseOf(y);
  const height = y.reduce((a, b) => Math.max(a, b)) - y.reduce((a, b) => Math.min(a, b));
  const least = Math.max(policy.overNoise * noise, policy.overHighest * height);
  if (!(least > 0)) return [];
  const groups = groupsOf(x, y, noise, least);
  return groups.flatMap((group, g) => {
    const room = [
      groups[g - 1]?.at(-1)?.to ?? 0,
      groups[g + 1]?.[0]?.from ?? y.length - 1,
    ] as const;
    const baseline = baselineOf(x, y, group, room);
    return group.map((stretch) => peakOf(x, y, stretch, baseline));
  });
}

function listedPeaks(trace: MeasuredTrace): ChromatogramPeak[] {
  const inMinutes = minutesIn(trace);
  return [...trace.x]
    .map((x, i) => ({ retention_min: x * inMinutes, area: trace.y[i]! }))
    .filter(({ retention_min, area }) => Number.isFinite(retention_min) && Number.isFinite(area));
}

/**
 * The peaks of a chromatogram: of a curve by integration (straight baseline under each group of
 * peaks that touch, a drop at each valley, trapezoids), of a list as it stands, its heights taken
 * for areas. Dips below the baseline are no peaks. See docs/methods/chromatography.md.
 */
export function peaksOfTrace(
  trace: MeasuredTrace,
  policy: IntegrationPolicy = INTEGRATION,
): Integration {
  const diagnostics: Diagnostic[] = [];
  if (trace.xUnit !== 's' && trace.xUnit !== 'min')
    diagnostics.push({
      code: 'chromatogram-time-unit',
      severity: 'warning',
      message: 'The file does not say whether its times are minutes or seconds: minutes are taken.',
      hint: 'Compare the last time with the length of the run.',
    });
  if (trace.kind === 'peaks')
    diagnostics.push({
      code: 'chromatogram-listed-areas',
      severity: 'note',
      message: 'The file lists peaks with one number each, which is taken for the area.',
      hint: 'If they are heights, or shares of the highest peak, no amounts follow from them.',
    });
  const found = trace.kind === 'curve' ? curvePeaks(trace, policy) : listedPeaks(trace);
  const peaks = found
    .filter(({ retention_min, area }) => retention_min >= 0 && area > 0)
    .sort((a, b) => b.area - a.area)
    .slice(0, MOST_PEAKS)
    .sort((a, b) => a.retention_min - b.retention_min);
  if (peaks.length === 0)
    diagnostics.push({
      code: 'chromatogram-no-peaks',
      severity: 'warning',
      message: 'No peak rises out of the noise of this chromatogram.',
      hint: 'Is it the right file, and was the sample injected?',
    });
  return { peaks, diagnostics };
}
