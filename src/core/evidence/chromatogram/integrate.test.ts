import { existsSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { MeasuredTrace } from '../spectrum/trace.ts';
import { plateNumber, symmetryFactor } from './figures.ts';
import { peaksOfTrace } from './integrate.ts';
import { noiseOf, turningsOf } from './turnings.ts';

interface Hill {
  readonly at: number;
  readonly height: number;
  readonly sigma: number;
}

/** A repeatable normal noise: a linear congruential generator through Box and Muller. */
function noiseSource(seed: number): () => number {
  let state = seed;
  const next = () => {
    state = (1664525 * state + 1013904223) % 2 ** 32;
    return (state + 1) / (2 ** 32 + 1);
  };
  return () => Math.sqrt(-2 * Math.log(next())) * Math.cos(2 * Math.PI * next());
}

function trace(
  hills: readonly Hill[],
  { noise = 0, drift = 0, level = 0, step = 0.005, end = 12 } = {},
): MeasuredTrace {
  const random = noiseSource(7);
  const x = Float64Array.from({ length: Math.round(end / step) + 1 }, (_, i) => i * step);
  const y = x.map((t) =>
    hills.reduce(
      (sum, { at, height, sigma }) => sum + height * Math.exp(-0.5 * ((t - at) / sigma) ** 2),
      level + drift * t + noise * random(),
    ),
  );
  return {
    title: 'made up',
    technique: 'chromatogram',
    kind: 'curve',
    x,
    y,
    xUnit: 'min',
    yUnit: 'arbitrary',
    headers: {},
    warnings: [],
  };
}

const areaOf = ({ height, sigma }: Hill) => height * sigma * Math.sqrt(2 * Math.PI);
const HILLS: readonly Hill[] = [
  { at: 2, height: 100, sigma: 0.03 },
  { at: 5, height: 1000, sigma: 0.05 },
  { at: 9, height: 40, sigma: 0.08 },
];

describe('integration', () => {
  test.each([
    ['quiet', {}, 0.003],
    ['on a slope and a level', { drift: 5, level: 200 }, 0.003],
    ['noisy', { noise: 0.3, drift: 1, level: 20 }, 0.03],
    ['falling', { noise: 0.1, drift: -3, level: 90 }, 0.02],
  ])('three peaks, %s', (_, how, within) => {
    const { peaks, diagnostics } = peaksOfTrace(trace(HILLS, how));
    expect(diagnostics).toEqual([]);
    expect(peaks).toHaveLength(3);
    peaks.forEach((peak, i) => {
      expect(Math.abs(peak.retention_min - HILLS[i]!.at)).toBeLessThan(0.02);
      expect(Math.abs(peak.area / areaOf(HILLS[i]!) - 1)).toBeLessThan(within);
    });
  });

  test('widths, plates and symmetry of a normal curve', () => {
    const [, peak] = peaksOfTrace(trace(HILLS)).peaks;
    expect(peak!.halfWidth_min! / (2 * Math.sqrt(2 * Math.log(2)) * 0.05)).toBeCloseTo(1, 2);
    expect(plateNumber(peak!)! / (5 / 0.05) ** 2).toBeCloseTo(1, 1);
    expect(symmetryFactor(peak!)).toBeCloseTo(1, 2);
  });

  test('two that touch are parted at the valley, over one baseline', () => {
    const pair = [
      { at: 5, height: 1000, sigma: 0.05 },
      { at: 5.2, height: 1000, sigma: 0.05 },
    ];
    const { peaks } = peaksOfTrace(trace(pair, { level: 50, drift: 2 }));
    expect(peaks).toHaveLength(2);
    const sum = peaks[0]!.area + peaks[1]!.area;
    expect(Math.abs(sum / (2 * areaOf(pair[0]!)) - 1)).toBeLessThan(0.005);
    expect(Math.abs(peaks[0]!.area / peaks[1]!.area - 1)).toBeLessThan(0.01);
  });

  test('three that touch make one group', () => {
    const chain = [5, 5.2, 5.4].map((at) => ({ at, height: 500, sigma: 0.05 }));
    const { peaks } = peaksOfTrace(trace(chain, { level: 10 }));
    expect(peaks).toHaveLength(3);
    const sum = peaks.reduce((all, { area }) => all + area, 0);
    expect(Math.abs(sum / (3 * areaOf(chain[0]!)) - 1)).toBeLessThan(0.005);
  });

  test('noise alone and a flat line have no peak', () => {
    for (const how of [{ noise: 1 }, { level: 3 }]) {
      const { peaks, diagnostics } = peaksOfTrace(trace([], how));
      expect(peaks).toEqual([]);
      expect(diagnostics.map(({ code }) => code)).toContain('chromatogram-no-peaks');
    }
  });

  test('seconds become minutes; gaps are left out; a unit that is not told is remarked', () => {
    const minutes = trace(HILLS);
    const seconds: MeasuredTrace = {
      ...minutes,
      x: minutes.x.map((t) => 60 * t),
      y: minutes.y.map((y, i) => (i % 97 === 0 ? Number.NaN : y)),
      xUnit: 's',
    };
    const { peaks } = peaksOfTrace(seconds);
    expect(peaks.map(({ retention_min }) => retention_min.toFixed(1))).toEqual([
      '2.0',
      '5.0',
      '9.0',
    ]);
    const codes = peaksOfTrace({ ...minutes, xUnit: 'unknown' }).diagnostics;
    expect(codes.map(({ code }) => code)).toEqual(['chromatogram-time-unit']);
  });

  test('a list of peaks is taken as it stands', () => {
    const list: MeasuredTrace = {
      ...trace([]),
      kind: 'peaks',
      x: Float64Array.of(3, 1, 2),
      y: Float64Array.of(30, 10, -5),
    };
    const { peaks, diagnostics } = peaksOfTrace(list);
    expect(diagnostics.map(({ code }) => code)).toEqual(['chromatogram-listed-areas']);
    expect(peaks).toEqual([
      { retention_min: 1, area: 10 },
      { retention_min: 3, area: 30 },
    ]);
  });

  test('areas grow with the signal, times stay', () => {
    const factor = fc.double({ min: 0.01, max: 1000, noNaN: true });
    fc.assert(
      fc.property(factor, (k) => {
        const plain = trace(HILLS, { noise: 0.1, level: 5 });
        const one = peaksOfTrace(plain).peaks;
        const other = peaksOfTrace({ ...plain, y: plain.y.map((y) => k * y) }).peaks;
        expect(other).toHaveLength(one.length);
        other.forEach((peak, i) => {
          expect(peak.area / (k * one[i]!.area)).toBeCloseTo(1, 6);
          expect(peak.retention_min).toBeCloseTo(one[i]!.retention_min, 9);
        });
      }),
      { numRuns: 20 },
    );
  });

  test('noise is found whatever the slope', () => {
    const { y } = trace([], { noise: 2, drift: 10 });
    expect(noiseOf(y)).toBeGreaterThan(1.8);
    expect(noiseOf(y)).toBeLessThan(2.2);
  });

  test('one valley more than tops, and they alternate', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 50 }), { minLength: 1, maxLength: 80 }),
        (ys) => {
          const { tops, valleys } = turningsOf(Float64Array.from(ys), 7);
          expect(valleys).toHaveLength(tops.length + 1);
          tops.forEach((top, i) => {
            expect(valleys[i]).toBeLessThan(top);
            expect(valleys[i + 1]).toBeGreaterThan(top);
            expect(ys[top]! - ys[valleys[i]!]!).toBeGreaterThanOrEqual(7);
            expect(ys[top]! - ys[valleys[i + 1]!]!).toBeGreaterThanOrEqual(7);
          });
        },
      ),
    );
  });
});

const MEASURED = new URL(
  '../../../../../shared/spectra/conformance/lancashire-public-domain/coffhd.jdx',
  import.meta.url,
);

describe('a measured table of peaks', () => {
  test.skipIf(!existsSync(MEASURED))(
    'coffee headspace (skipped where the folder of spectra is not beside the project)',
    () => {
      const text = readFileSync(MEASURED, 'latin1');
      const pairs = [...text.matchAll(/\b(\d+),(\d+)\b/g)];
      expect(pairs.length).toBe(27);
      const list: MeasuredTrace = {
        ...trace([]),
        kind: 'peaks',
        x: Float64Array.from(pairs, (pair) => Number(pair[1])),
        y: Float64Array.from(pairs, (pair) => Number(pair[2])),
      };
      expect(peaksOfTrace(list).peaks).toHaveLength(pairs.length);
    },
  );
});
