import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findPeaks } from './peaks.ts';
import { bandsAt, evenly, noisy, randomBands } from './testing/curves.ts';
import type { KnownBand } from './testing/curves.ts';

const SEEDS = Array.from({ length: 40 }, (_, i) => i + 1);

/** Bands and shoulders found, and what is no band, over all seeds. */
function counts(step: number, sigma: number) {
  const x = evenly(600, 4000, step);
  const tally = { bands: 0, found: 0, shoulders: 0, foundShoulders: 0, wrong: 0 };
  let [squares, expected, alone] = [0, 0, 0];
  for (const seed of SEEDS) {
    const { bands, shoulders } = randomBands(seed);
    const clean = bandsAt(x, [...bands, ...shoulders]);
    const sloped = clean.map((y, i) => y + 0.05 + 5e-5 * (x[i]! - 600));
    const peaks = findPeaks(x, noisy(sloped, sigma, seed + 1000));
    const near = (band: KnownBand, share: number) =>
      peaks.filter(
        ({ position_percm: p }) => Math.abs(p - band.position) < share * band.width + step,
      );
    tally.bands += bands.length;
    tally.shoulders += shoulders.length;
    for (const band of bands) {
      const peak = near(band, 0.35).find(({ kind }) => kind === 'peak');
      if (peak === undefined) continue;
      tally.found++;
      if (shoulders.some(({ position }) => Math.abs(position - band.position) < 60)) continue;
      squares += (peak.position_percm - band.position) ** 2;
      expected += peak.position_u_percm ** 2;
      alone++;
    }
    tally.foundShoulders += shoulders.filter((each) => near(each, 0.5).length > 0).length;
    const all = [...bands, ...shoulders];
    tally.wrong += peaks.filter(
      ({ position_percm: p }) =>
        !all.some(({ position, width }) => Math.abs(position - p) < 0.6 * width + step),
    ).length;
  }
  return { ...tally, rms: Math.sqrt(squares / alone), claimed: Math.sqrt(expected / alone) };
}

describe('bands of known place, under noise and slope', () => {
  // step, noise, largest rms error of positions, least share of shoulders
  const CASES = [
    [1, 0, 0.1, 0.8],
    [1, 0.002, 0.3, 0.6],
    [1, 0.01, 0.5, 0],
    [2, 0, 0.1, 0.8],
    [2, 0.002, 0.4, 0.6],
    [4, 0, 0.2, 0.5],
    [4, 0.01, 0.7, 0],
  ] as const;
  it.each(CASES)(
    'every %d cm⁻¹, σ %d: all bands, and none that is not there',
    (step, sigma, rms, share) => {
      const got = counts(step, sigma);
      expect(got.found).toBe(got.bands);
      // Noise alone makes one in some forty spectra
      expect(got.wrong).toBeLessThanOrEqual(sigma === 0.01 ? 2 : 0);
      expect(got.rms).toBeLessThan(rms);
      expect(got.rms).toBeLessThan(1.5 * got.claimed);
      expect(got.foundShoulders).toBeGreaterThanOrEqual(share * got.shoulders);
    },
  );
});

describe('single cases', () => {
  const x = evenly(1500, 2000, 2);
  const one = bandsAt(x, [{ position: 1715.3, width: 20, height: 0.8 }]);

  it('gives place, height, prominence and width', () => {
    const [peak, ...rest] = findPeaks(x, one);
    expect(rest).toEqual([]);
    expect(peak!.position_percm).toBeCloseTo(1715.3, 1);
    expect(peak!.height).toBeCloseTo(0.8, 3);
    expect(peak!.prominence).toBeCloseTo(0.8, 2);
    expect(peak!.width_percm).toBeCloseTo(20, 0);
    expect(peak!.kind).toBe('peak');
  });
  it('takes the middle of a flat top, and says how flat', () => {
    const cut = one.map((y) => Math.min(y, 0.5));
    const [peak, ...rest] = findPeaks(x, cut);
    expect(rest).toEqual([]);
    expect(peak!.position_percm).toBeCloseTo(1715.3, 0);
    expect(peak!.position_u_percm).toBeGreaterThan(3);
  });
  it('makes one peak of a ragged saturated stretch', () => {
    const ragged = one.map((y, i) => (y > 0.5 ? 0.5 + 0.05 * ((i * 7) % 5) : y));
    expect(findPeaks(x, ragged, { shoulders: false }).length).toBeGreaterThan(1);
    const peaks = findPeaks(x, ragged, { saturated: [[1707, 1724]] });
    expect(peaks).toHaveLength(1);
    expect(Math.abs(peaks[0]!.position_percm - 1715.5)).toBeLessThan(1);
  });
  it('finds a shoulder where there is no second summit', () => {
    const two = bandsAt(x, [
      { position: 1740, width: 24, height: 0.9 },
      { position: 1718, width: 20, height: 0.35 },
    ]);
    const peaks = findPeaks(x, two);
    expect(peaks.map(({ kind }) => kind)).toEqual(['shoulder', 'peak']);
    expect(Math.abs(peaks[0]!.position_percm - 1718)).toBeLessThan(5);
  });
  it('finds nothing in a straight line, in noise, in four points', () => {
    expect(findPeaks(x, x)).toEqual([]);
    expect(findPeaks(x, noisy(new Float64Array(x.length), 0.01, 5))).toEqual([]);
    expect(findPeaks(x.slice(0, 4), one.slice(0, 4))).toEqual([]);
  });
  it('minds no uneven spacing', () => {
    const uneven = Float64Array.from(x, (each, i) => each + (i % 3) * 0.5);
    const y = bandsAt(uneven, [{ position: 1715.3, width: 20, height: 0.8 }]);
    expect(findPeaks(uneven, y)[0]!.position_percm).toBeCloseTo(1715.3, 1);
  });
});

describe('what always holds', () => {
  const curve = fc.array(fc.double({ min: 0, max: 2, noNaN: true }), {
    minLength: 5,
    maxLength: 200,
  });
  it('peaks are in range, in order, and as prominent as asked', () => {
    fc.assert(
      fc.property(curve, fc.double({ min: 0.01, max: 1, noNaN: true }), (values, least) => {
        const y = Float64Array.from(values);
        const x = evenly(1000, 1000 + 2 * (y.length - 1), 2);
        const peaks = findPeaks(x, y, { minProminence: least, noise: 0 });
        let before = -Infinity;
        for (const peak of peaks) {
          expect(peak.position_percm).toBeGreaterThanOrEqual(before);
          expect(peak.position_percm).toBeGreaterThan(x[0]!);
          expect(peak.position_percm).toBeLessThan(x.at(-1)!);
          expect(peak.prominence).toBeGreaterThanOrEqual(least);
          expect(peak.width_percm).toBeGreaterThanOrEqual(0);
          expect(peak.position_u_percm).toBeGreaterThanOrEqual(0);
          before = peak.position_percm;
        }
      }),
    );
  });
  it('an offset and a larger unit change no position', () => {
    fc.assert(
      fc.property(curve, fc.integer({ min: 1, max: 8 }), (values, offset) => {
        const y = Float64Array.from(values);
        const x = evenly(1000, 1000 + 2 * (y.length - 1), 2);
        const options = { minProminence: 0.1, noise: 0, shoulders: false };
        const plain = findPeaks(x, y, options);
        const scaled = findPeaks(
          x,
          y.map((each) => 4 * each),
          { ...options, minProminence: 0.4 },
        );
        expect(scaled.map((each) => each.position_percm)).toEqual(
          plain.map((each) => each.position_percm),
        );
        const raised = findPeaks(
          x,
          y.map((each) => each + offset),
          { ...options, minProminence: 0.1 - 1e-9 },
        );
        expect(raised.length).toBeGreaterThanOrEqual(plain.length);
      }),
    );
  });
});
