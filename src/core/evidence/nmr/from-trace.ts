import type { Diagnostic } from '../../diagnostic.ts';
import type { MeasuredTrace } from '../spectrum/trace.ts';
import { patternOfLines } from './lines.ts';
import type { Line } from './lines.ts';
import type { NmrSignal } from './schema.ts';
import { middleOf } from './signal.ts';
import { solventNamed } from './solvents.ts';
import type { NmrSolvent } from './solvents.ts';

/** A signal stands this many times above the noise. */
const ABOVE_NOISE = 8;
/** ... and above this share of the largest, so that satellites and feet do not count. */
const ABOVE_LARGEST = 0.004;
/** Lines this near belong to one signal: the largest usual coupling (18 Hz) and its width. */
const JOIN_Hz = 22;
const JOIN_ppm = 0.05;
/** Integrals reach this far beyond the outermost line. */
const MARGIN_ppm = 0.02;
const LEAST_POINTS = 200;

export interface TraceSignals {
  readonly solvent: NmrSolvent;
  readonly frequency_MHz?: number;
  /** From low to high shift, integrals so that the largest signal's is 100. */
  readonly signals: readonly NmrSignal[];
  /** Standard deviation of the noise as a share of the highest point. */
  readonly noise: number;
}

export type TraceSignalsReading =
  ({ readonly ok: true } & TraceSignals) | { readonly ok: false; readonly problem: Diagnostic };

function median(values: Float64Array): number {
  const sorted = values.toSorted();
  return sorted[sorted.length >> 1] ?? 0;
}

/** Noise from the differences of neighbouring points (1.4826 · median / √2), whatever the baseline. */
function noiseOf(y: Float64Array): number {
  const steps = y.slice(1).map((value, i) => Math.abs(value - y[i]!));
  return (1.4826 * median(steps)) / Math.SQRT2;
}

/**
 * A straight baseline in pieces: the median of the quietest third of each of some stretches, the
 * line through their middles. Signals are narrow beside a stretch.
 */
function withoutBaseline(y: Float64Array): Float64Array {
  const pieces = 24;
  const size = Math.ceil(y.length / pieces);
  const levels = Array.from({ length: pieces }, (_, k) => {
    const part = y.slice(k * size, (k + 1) * size).toSorted();
    return part.length === 0 ? undefined : part[Math.floor(part.length / 3)]!;
  });
  const at = (k: number): number => levels[Math.min(Math.max(k, 0), pieces - 1)] ?? levels[0] ?? 0;
  return y.map((value, i) => {
    const place = i / size - 0.5;
    const k = Math.floor(place);
    return value - (at(k) + (place - k) * (at(k + 1) - at(k)));
  });
}

/** Local maxima above a threshold, with a dip of at least `dip` between two. */
function linesOf(x: Float64Array, y: Float64Array, least: number, dip: number): Line[] {
  const lines: Line[] = [];
  let low = Infinity;
  y.forEach((value, i) => {
    low = Math.min(low, value);
    const isTop = value >= least && value > (y[i - 1] ?? 0) && value >= (y[i + 1] ?? 0);
    if (!isTop) return;
    const last = lines.at(-1);
    const separate = last === undefined || Math.min(last.height, value) - low > dip;
    if (separate) lines.push({ shift_ppm: x[i]!, height: value, at: i });
    else if (value > last.height)
      lines[lines.length - 1] = { shift_ppm: x[i]!, height: value, at: i };
    if (separate || value > (last?.height ?? 0)) low = value;
  });
  return lines;
}

function grouped(lines: readonly Line[], join_ppm: number): Line[][] {
  const groups: Line[][] = [];
  for (const line of lines) {
    const last = groups.at(-1)?.at(-1);
    if (last !== undefined && line.shift_ppm - last.shift_ppm <= join_ppm)
      groups.at(-1)!.push(line);
    else groups.push([line]);
  }
  return groups;
}

interface Curve {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** Area between two shifts by trapezia, in height × ppm. */
function areaBetween({ x, y }: Curve, from: number, to: number): number {
  let area = 0;
  for (let i = 1; i < x.length; i++) {
    if (x[i - 1]! < from || x[i]! > to) continue;
    area += ((y[i]! + y[i - 1]!) / 2) * (x[i]! - x[i - 1]!);
  }
  return area;
}

function signalsOf(curve: Curve, noise: number, frequency_MHz: number | undefined): NmrSignal[] {
  const highest = curve.y.reduce((most, value) => Math.max(most, value), 0);
  const least = Math.max(ABOVE_NOISE * noise, ABOVE_LARGEST * highest);
  const lines = linesOf(curve.x, curve.y, least, Math.max(4 * noise, 0.25 * least));
  const join = frequency_MHz === undefined ? JOIN_ppm : JOIN_Hz / frequency_MHz;
  const groups = grouped(lines, join);
  const edges = groups.map((group, i) => {
    const from = group[0]!.shift_ppm;
    const to = group.at(-1)!.shift_ppm;
    const below = groups[i - 1]?.at(-1)?.shift_ppm ?? -Infinity;
    const above = groups[i + 1]?.[0]?.shift_ppm ?? Infinity;
    return {
      from: Math.max(from - MARGIN_ppm - 0.2 * join, (from + below) / 2),
      to: Math.min(to + MARGIN_ppm + 0.2 * join, (to + above) / 2),
    };
  });
  const areas = edges.map(({ from, to }) => Math.max(0, areaBetween(curve, from, to)));
  const largest = Math.max(...areas, Number.MIN_VALUE);
  return groups.map((group, i): NmrSignal => {
    const pattern = patternOfLines(group, frequency_MHz);
    const shift = (ppm: number): number => Number(ppm.toFixed(3));
    const wide = pattern.multiplicity === 'm' && group.length > 1;
    return {
      shift_ppm: shift(wide ? group[0]!.shift_ppm : pattern.centre_ppm),
      ...(wide ? { to_ppm: shift(group.at(-1)!.shift_ppm) } : {}),
      integral: Number(((100 * areas[i]!) / largest).toPrecision(4)),
      multiplicity: pattern.multiplicity,
      ...(pattern.J_Hz === undefined ? {} : { J_Hz: [Number(pattern.J_Hz.toFixed(1))] }),
    };
  });
}

/** One-bond couplings to carbon-13, and what share of the signal a satellite has (half of 1.1 %). */
const SATELLITE_Hz = [105, 215] as const;
const MOST_SATELLITE = 0.011;

/** Without the carbon-13 satellites: pairs of small signals at equal distances from a large one. */
function withoutSatellites(
  signals: readonly NmrSignal[],
  frequency_MHz: number | undefined,
): NmrSignal[] {
  if (frequency_MHz === undefined) return [...signals];
  const isSatellite = (one: NmrSignal): boolean =>
    signals.some((parent) => {
      const limit = MOST_SATELLITE * (parent.integral ?? 0);
      const away = middleOf(one) - middleOf(parent);
      const apart = 2 * Math.abs(away) * frequency_MHz;
      if ((one.integral ?? 0) > limit || apart < SATELLITE_Hz[0] || apart > SATELLITE_Hz[1])
        return false;
      return signals.some(
        (other) =>
          (other.integral ?? 0) <= limit &&
          Math.abs(middleOf(other) - middleOf(parent) + away) < 0.015,
      );
    });
  return signals.filter((one) => !isSatellite(one));
}

/**
 * Signals of a processed one-dimensional spectrum in ppm: the baseline taken off, lines above the
 * noise, near ones gathered to a signal, areas, and first-order patterns where the lines show one.
 * A proposal for a person to correct: overlap and bad phase are not seen through.
 */
export function signalsOfTrace(trace: MeasuredTrace): TraceSignalsReading {
  const finite = [...trace.x.keys()].filter(
    (i) => Number.isFinite(trace.x[i]) && Number.isFinite(trace.y[i]),
  );
  if (trace.kind !== 'curve' || trace.xUnit !== 'ppm' || finite.length < LEAST_POINTS)
    return {
      ok: false,
      problem: {
        code: 'nmr-trace',
        severity: 'error',
        message: `${trace.title}: this is no processed NMR spectrum on a ppm scale.`,
        hint: 'Export the spectrum after the Fourier transform, phased, with ppm along the axis; or write the signals down.',
      },
    };
  const x = Float64Array.from(finite, (i) => trace.x[i]!);
  const y = withoutBaseline(Float64Array.from(finite, (i) => trace.y[i]!));
  const noise = noiseOf(y);
  const highest = y.reduce((most, value) => Math.max(most, value), 0);
  const { frequency_MHz } = trace;
  return {
    ok: true,
    solvent: solventNamed(trace.headers['.SOLVENTNAME'] ?? trace.headers['SOLVENTNAME'] ?? ''),
    ...(frequency_MHz === undefined ? {} : { frequency_MHz }),
    signals: withoutSatellites(signalsOf({ x, y }, noise, frequency_MHz), frequency_MHz),
    noise: highest > 0 ? noise / highest : 0,
  };
}
