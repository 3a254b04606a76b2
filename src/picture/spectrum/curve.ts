import { extremesIn, firstAtOrAbove, pointsIn } from './series.ts';
import type { Series } from './series.ts';

/** How a curve is put on a picture. Places rise with px; the axis may run either way. */
export interface Putting {
  readonly xOf: (x: number) => number;
  readonly yOf: (y: number) => number;
  readonly valueAt: (px: number) => number;
  /** Left edge and width of the plot, in px. */
  readonly left: number;
  readonly width: number;
  readonly falls: boolean;
  /** Columns a px: 2 on a fine screen. */
  readonly density?: number;
}

/** x, y, x, y … in px from left to right; NaN, NaN where the line is lifted. */
export type Polyline = Float64Array;

/** What rises less within a column is not seen, but costs as much to draw. */
const UNSEEN_px = 0.5;

interface Pen {
  readonly out: Float64Array;
  at: number;
  run: number;
}

/**
 * The curve of a trace within a plot. Where there are more points than the columns can show, each
 * column keeps the point it is entered at, its lowest, its highest and the point it is left at, in
 * their order (U. Jugel et al., Proc. VLDB Endow. 2014, 7, 797: such a line fills the same pixels);
 * a column that is flat to half a px keeps one point. Nothing is further off than that.
 */
export function curveIn(series: Series, putting: Putting): Polyline {
  const { left, width, valueAt, density = 1 } = putting;
  const columns = Math.max(1, Math.round(width * density));
  const [a, b] = [valueAt(left), valueAt(left + width)];
  const [from, to] = pointsIn(series, Math.min(a, b), Math.max(a, b));
  const count = to - from;
  if (count <= 0) return new Float64Array(0);
  const few = count <= 3 * columns;
  const pen: Pen = { out: new Float64Array(few ? 4 * count : 16 * (columns + 2)), at: 0, run: -1 };
  if (few) allPoints(series, putting, from, to, pen);
  else columnPoints(series, putting, columns, from, to, pen);
  return pen.out.subarray(0, pen.at);
}

function put({ x, y, run }: Series, { xOf, yOf }: Putting, i: number, pen: Pen): void {
  if (pen.run !== -1 && pen.run !== run[i]) {
    pen.out[pen.at++] = Number.NaN;
    pen.out[pen.at++] = Number.NaN;
  }
  pen.run = run[i]!;
  pen.out[pen.at++] = xOf(x[i]!);
  pen.out[pen.at++] = yOf(y[i]!);
}

function allPoints(series: Series, putting: Putting, from: number, to: number, pen: Pen): void {
  for (let n = 0; n < to - from; n++)
    put(series, putting, putting.falls ? to - 1 - n : from + n, pen);
}

function columnPoints(
  series: Series,
  putting: Putting,
  columns: number,
  from: number,
  to: number,
  pen: Pen,
): void {
  const { falls, left, width, valueAt, yOf } = putting;
  // Both ends lie outside: one point before the first column, one after the last.
  let edge = falls ? to - 1 : from + 1;
  put(series, putting, falls ? to - 1 : from, pen);
  for (let column = 1; column <= columns; column++) {
    const value = valueAt(left + (width * column) / columns);
    const next = clamp(edgeNear(series.x, value, edge, falls), from, to);
    if (falls ? next < edge : next > edge) {
      const [first, last] = falls ? [next, edge] : [edge, next];
      const { low, high } = extremesIn(series, first, last);
      if (Math.abs(yOf(series.y[low]!) - yOf(series.y[high]!)) < UNSEEN_px)
        put(series, putting, falls ? first : last - 1, pen);
      else {
        const [one, two] = low < high ? [low, high] : [high, low];
        if (falls) putInOrder(series, putting, last - 1, two, one, first, pen);
        else putInOrder(series, putting, first, one, two, last - 1, pen);
      }
      edge = next;
    }
  }
  const end = falls ? from : to - 1;
  if (falls ? end < edge : end >= edge) put(series, putting, end, pen);
}

/** Four points, of which neighbours may be the same. No list is made: this is every column of every frame. */
function putInOrder(
  series: Series,
  putting: Putting,
  a: number,
  b: number,
  c: number,
  d: number,
  pen: Pen,
): void {
  put(series, putting, a, pen);
  if (b !== a) put(series, putting, b, pen);
  if (c !== b) put(series, putting, c, pen);
  if (d !== c) put(series, putting, d, pen);
}

/** The first point at or above a value, sought from the edge of the column before outwards. */
function edgeNear(x: Float64Array, value: number, edge: number, falls: boolean): number {
  let reach = 16;
  if (falls) {
    while (edge - reach > 0 && x[edge - reach]! >= value) reach *= 2;
    return firstAtOrAbove(x, value, Math.max(0, edge - reach), Math.min(x.length, edge + 1));
  }
  while (edge + reach < x.length && x[edge + reach]! < value) reach *= 2;
  return firstAtOrAbove(x, value, edge, Math.min(x.length, edge + reach + 1));
}

const clamp = (value: number, low: number, high: number) => Math.min(high, Math.max(low, value));

/** Lines from the base: of several in one column the highest. x, y of each tip. */
export function sticksIn({ x, y }: Series, putting: Putting): Polyline {
  const { left, width, valueAt, xOf, yOf } = putting;
  const [a, b] = [valueAt(left), valueAt(left + width)];
  const tips = new Map<number, readonly [number, number]>();
  for (let i = firstAtOrAbove(x, Math.min(a, b)); i < x.length && x[i]! <= Math.max(a, b); i++) {
    const at = xOf(x[i]!);
    const tip = [at, yOf(y[i]!)] as const;
    const standing = tips.get(Math.round(at));
    if (standing === undefined || tip[1] < standing[1]) tips.set(Math.round(at), tip);
  }
  return Float64Array.from([...tips.values()].flat());
}
