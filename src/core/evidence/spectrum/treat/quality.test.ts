import { describe, expect, it } from 'vitest';
import linesTable from '../../../facts/vapour_lines.json' with { type: 'json' };
import { rowsOf } from '../../../facts/table.ts';
import type { InfraredSpectrum } from '../infrared.ts';
import { absorbanceOf } from './absorbance.ts';
import { findPeaks } from './peaks.ts';
import { noiseAt, qualityOf } from './quality.ts';
import { spectrumPeaks } from './spectrum-peaks.ts';
import { bandsAt, evenly, noisy, randomBands, spectrumOf } from './testing/curves.ts';

const x = evenly(600, 4000, 1);
const { bands } = randomBands(11);
const sample = bandsAt(
  x,
  bands.filter(({ position }) => position < 1800 || (position > 2700 && position < 3400)),
);
const WATER = rowsOf(linesTable).map((row) => Number(row['position_percm']));

function judged(y: Float64Array, rest: Partial<InfraredSpectrum> = {}) {
  return qualityOf(spectrumOf(x, y, rest));
}

/** Transmittance as an instrument records it, with noise, shown as absorbance. */
function recorded(y: Float64Array, sigma: number): Float64Array {
  return noisy(
    y.map((each) => 10 ** -each),
    sigma,
    3,
  ).map(absorbanceOf);
}

const water = (height: number) =>
  bandsAt(
    x,
    WATER.map((position) => ({ position, width: 4, height, shape: 'lorentz' })),
  );
const plus = (...curves: Float64Array[]) =>
  curves.reduce((sum, curve) => sum.map((each, i) => each + curve[i]!));

describe('noise', () => {
  it.each([1e-4, 1e-3, 5e-3])('of %d comes back', (sigma) => {
    expect(judged(noisy(sample, sigma, 5)).noise / sigma).toBeGreaterThan(0.85);
    expect(judged(noisy(sample, sigma, 5)).noise / sigma).toBeLessThan(1.15);
  });
  it('of a transmittance record grows with the absorbance', () => {
    const spectrum = spectrumOf(x, recorded(sample, 0.002), { recordedAs: 'transmittance' });
    const quality = qualityOf(spectrum);
    expect(noiseAt(spectrum, quality, 1) / noiseAt(spectrum, quality, 0)).toBeCloseTo(10, 0);
    expect(noiseAt({ ...spectrum, recordedAs: 'absorbance' }, quality, 1)).toBe(quality.noise);
  });
});

describe('saturation', () => {
  const strong = sample.map((each) => 4 * each);
  it('none where nothing is too strong', () => {
    expect(judged(sample).saturated).toEqual([]);
    expect(judged(bandsAt(x, [{ position: 3300, width: 300, height: 0.9 }])).saturated).toEqual([]);
  });
  it('a floor of transmittance', () => {
    const y = recorded(strong, 0.003);
    const found = judged(y, { recordedAs: 'transmittance' }).saturated;
    expect(found.length).toBeGreaterThan(0);
    for (const [from, to] of found) {
      const middle = y[Math.round((from + to) / 2) - 600]!;
      expect(middle).toBeGreaterThan(1.5);
    }
  });
  it('a top cut off at any height', () => {
    const y = bandsAt(x, [{ position: 1715, width: 40, height: 2 }]).map((each) =>
      Math.min(each, 1.2),
    );
    const [[from, to] = [0, 0], ...rest] = judged(y).saturated;
    expect(rest).toEqual([]);
    // exp(−4 ln 2 · (d/40)²) = 0.6: d = 17
    expect(from).toBeCloseTo(1698, -1);
    expect(to).toBeCloseTo(1732, -1);
  });
  it('more absorbance than an instrument can tell', () => {
    const y = bandsAt(x, [{ position: 1715, width: 40, height: 3 }]);
    expect(judged(y).saturated).toHaveLength(1);
  });
});

it('the noise of a strong band of transmittance makes no bands of its own', () => {
  const y = recorded(bandsAt(x, [{ position: 1715, width: 60, height: 2.2 }]), 0.002);
  const spectrum = spectrumOf(x, y, { recordedAs: 'transmittance' });
  const quality = { ...qualityOf(spectrum), saturated: [] };
  const plain = findPeaks(x, y, { minProminence: 0.02, noise: quality.noise, shoulders: false });
  expect(plain.length).toBeGreaterThan(3);
  const peaks = spectrumPeaks(spectrum, quality).filter(({ kind }) => kind === 'peak');
  expect(peaks).toHaveLength(1);
  expect(Math.abs(peaks[0]!.position_percm - 1715)).toBeLessThan(4 * peaks[0]!.position_u_percm);
});

describe('the whole spectrum', () => {
  it('too weak, and not', () => {
    expect(
      judged(
        noisy(
          sample.map((each) => 0.03 * each),
          1e-4,
          2,
        ),
      ).tooWeak,
    ).toBe(true);
    expect(judged(sample).tooWeak).toBe(false);
  });
  it('the background: offset and slope', () => {
    const { background } = judged(sample.map((each, i) => each + 0.1 + 5e-5 * (x[i]! - 600)));
    expect(background.offset).toBeCloseTo(0.1, 1);
    expect(background.slope_per1000).toBeCloseTo(0.05, 2);
    expect(background.rise).toBeCloseTo(0.17, 1);
  });
  it('the resolution: as the file says, else from the spacing', () => {
    expect(judged(sample, { resolution_percm: 4 })).toMatchObject({
      resolution_percm: 4,
      resolutionFrom: 'file',
    });
    expect(judged(sample)).toMatchObject({ resolution_percm: 2, resolutionFrom: 'spacing' });
  });
});

describe('fringes', () => {
  it.each([20, 45, 70])('a wave of %d cm⁻¹', (period) => {
    const wave = x.map((each) => 0.01 * Math.sin((2 * Math.PI * each) / period));
    const { fringes } = judged(noisy(plus(sample, wave), 5e-4, 7));
    expect(Math.abs(fringes!.period_percm / period - 1)).toBeLessThan(0.05);
    expect(fringes!.amplitude).toBeCloseTo(0.01, 2);
  });
  it('none in noise, none in a plain spectrum', () => {
    expect(judged(noisy(sample, 1e-3, 8)).fringes).toBeUndefined();
    expect(judged(sample).fringes).toBeUndefined();
  });
});

describe('the air in the beam', () => {
  const gas = bandsAt(x, [
    { position: 2360, width: 18, height: 0.02 },
    { position: 2338, width: 26, height: 0.017 },
  ]);
  const nitrile = bandsAt(x, [{ position: 2345, width: 12, height: 0.1 }]);
  it('carbon dioxide, more or less of it than before', () => {
    const more = judged(noisy(plus(sample, gas), 5e-4, 4)).carbonDioxide!;
    expect(more.height).toBeGreaterThan(0.015);
    const less = judged(
      noisy(
        sample.map((each, i) => each - gas[i]!),
        5e-4,
        4,
      ),
    ).carbonDioxide!;
    expect(less.height).toBeLessThan(-0.015);
  });
  it('none where there is none, and a single narrow band is none', () => {
    expect(judged(noisy(sample, 5e-4, 4)).carbonDioxide).toBeUndefined();
    expect(judged(noisy(plus(sample, nitrile), 5e-4, 4)).carbonDioxide).toBeUndefined();
  });
  it('water vapour, by its lines, both ways', () => {
    const more = judged(noisy(plus(sample, water(0.01)), 5e-4, 4)).waterVapour!;
    expect(more.height).toBeGreaterThan(0.003);
    const less = judged(noisy(plus(sample, water(-0.01)), 5e-4, 4)).waterVapour!;
    expect(less.height).toBeLessThan(-0.003);
  });
  it('no water in spectra without it', () => {
    let taken = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const { bands: others, shoulders } = randomBands(seed);
      const y = noisy(bandsAt(x, [...others, ...shoulders]), 1e-3, seed);
      if (judged(y).waterVapour !== undefined) taken++;
    }
    expect(taken).toBe(0);
  });
});
