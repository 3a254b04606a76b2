import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { curveIn, sticksIn } from './curve.ts';
import { extremesIn, firstAtOrAbove, seriesOf, valueAt } from './series.ts';
import type { TraceShown } from './spectrum-view.ts';

const trace = (
  x: readonly number[],
  y: readonly number[],
  gaps: TraceShown['gaps'] = [],
): TraceShown => ({
  id: 's',
  label: 'Sample',
  role: 'sample',
  x: Float64Array.from(x),
  y: Float64Array.from(y),
  gaps,
});

const WIDTH = 60;
const HEIGHT = 200;

/** 0 to 1000 over 60 px, either way. */
const putting = (falls: boolean) => ({
  xOf: (x: number) => (falls ? (1 - x / 1000) * WIDTH : (x / 1000) * WIDTH),
  yOf: (y: number) => HEIGHT * (1 - y),
  valueAt: (px: number) => (falls ? 1 - px / WIDTH : px / WIDTH) * 1000,
  left: 0,
  width: WIDTH,
  falls,
});

/** Rising places, evenly spaced or not. */
const anyCurve = fc
  .array(
    fc.tuple(
      fc.double({ min: 0.01, max: 3, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
    ),
    {
      minLength: 300,
      maxLength: 900,
    },
  )
  .map((all) => {
    let at = 0;
    const steps = all.map(([step]) => (at += step));
    return trace(
      steps.map((x) => (x / at) * 1000),
      all.map(([, y]) => y),
    );
  });

describe('extremes', () => {
  test('are those of a pass over all points', () => {
    fc.assert(
      fc.property(anyCurve, fc.nat(899), fc.nat(899), (curve, a, b) => {
        const series = seriesOf(curve);
        const [from, to] = [Math.min(a, b) % series.y.length, Math.max(a, b, 1) % series.y.length];
        fc.pre(from < to);
        const part = series.y.slice(from, to);
        const { low, high } = extremesIn(series, from, to);
        expect(series.y[low]).toBe(Math.min(...part));
        expect(series.y[high]).toBe(Math.max(...part));
        expect(low >= from && low < to && high >= from && high < to).toBe(true);
      }),
    );
  });
});

describe('a curve with more points than columns', () => {
  test('keeps the lowest and the highest point of every column to half a px', () => {
    fc.assert(
      fc.property(anyCurve, fc.boolean(), (curve, falls) => {
        const series = seriesOf(curve);
        const place = putting(falls);
        const line = curveIn(series, place);
        expect(line.length).toBeLessThanOrEqual(8 * (WIDTH + 2));
        for (let column = 0; column < WIDTH; column++) {
          const inside = (px: number) => px > column + 1e-6 && px < column + 1 - 1e-6;
          const real = [...series.x].flatMap((x, i) =>
            inside(place.xOf(x)) ? [place.yOf(series.y[i]!)] : [],
          );
          if (real.length === 0) continue;
          const drawn = Array.from({ length: line.length / 2 }, (_, i) => i).flatMap((i) =>
            line[2 * i]! >= column - 1e-6 && line[2 * i]! <= column + 1 + 1e-6
              ? [line[2 * i + 1]!]
              : [],
          );
          expect(Math.min(...drawn)).toBeLessThanOrEqual(Math.min(...real) + 0.5);
          expect(Math.max(...drawn)).toBeGreaterThanOrEqual(Math.max(...real) - 0.5);
        }
      }),
      { numRuns: 40 },
    );
  });

  test('runs from left to right', () => {
    fc.assert(
      fc.property(anyCurve, fc.boolean(), (curve, falls) => {
        const line = curveIn(seriesOf(curve), putting(falls));
        for (let i = 2; i < line.length; i += 2)
          expect(line[i]!).toBeGreaterThanOrEqual(line[i - 2]!);
      }),
    );
  });

  test('a single point that is one in ten thousand is still drawn', () => {
    const y = Array.from({ length: 10_000 }, (_, i) => (i === 4321 ? 1 : 0));
    const line = curveIn(
      seriesOf(
        trace(
          y.map((_, i) => i / 10),
          y,
        ),
      ),
      putting(true),
    );
    expect(Math.min(...line.filter((_, i) => i % 2 === 1))).toBe(0);
  });
});

describe('gaps', () => {
  const lifts = (line: Float64Array) => line.filter(Number.isNaN).length / 2;
  const x = Array.from({ length: 40 }, (_, i) => 25 * i);

  test('no line is drawn across a value that is not there', () => {
    const y = x.map((_, i) => (i === 10 || i === 11 ? Number.NaN : 0.5));
    expect(lifts(curveIn(seriesOf(trace(x, y)), putting(false)))).toBe(1);
  });

  test('nor across a stretch that is said to be one, with few points or many', () => {
    const few = seriesOf(
      trace(
        x,
        x.map(() => 0.5),
        [[250, 275]],
      ),
    );
    expect(lifts(curveIn(few, putting(true)))).toBe(1);
    const dense = Array.from({ length: 5000 }, (_, i) =>
      i < 2500 ? i / 10 : 500 + (i - 2500) / 5,
    );
    const many = seriesOf(
      trace(
        dense,
        dense.map(() => 0.5),
        [[249.9, 500]],
      ),
    );
    expect(lifts(curveIn(many, putting(true)))).toBe(1);
    expect(valueAt(many, 300)).toBeUndefined();
    expect(valueAt(many, 600)).toBe(0.5);
  });

  test('a trace without any value draws nothing', () => {
    expect(curveIn(seriesOf(trace([], [])), putting(true))).toHaveLength(0);
    expect(curveIn(seriesOf(trace([1, 2], [Number.NaN, Infinity])), putting(true))).toHaveLength(0);
  });
});

test('between two points a value lies on the line that joins them', () => {
  const series = seriesOf(trace([100, 200], [0, 1]));
  expect(valueAt(series, 125)).toBeCloseTo(0.25, 12);
  expect(valueAt(series, 99)).toBeUndefined();
  expect(firstAtOrAbove(series.x, 150)).toBe(1);
});

test('of sticks in one column the highest is drawn', () => {
  const tips = sticksIn(seriesOf(trace([100, 101, 500], [0.2, 0.9, 0.4])), putting(false));
  expect(tips).toHaveLength(4);
  expect(tips[1]).toBeCloseTo(HEIGHT * 0.1, 9);
});
