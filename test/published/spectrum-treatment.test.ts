import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import published from './spectrum-treatment.json' with { type: 'json' };
import { readCsv } from '../../scripts/csv.ts';
import type { InfraredSpectrum } from '../../src/core/evidence/spectrum/infrared.ts';
import { readInstrumentFile } from '../../src/core/evidence/spectrum/read/read-file.ts';
import { infraredOf } from '../../src/core/evidence/spectrum/to-infrared.ts';
import { absorbanceOf } from '../../src/core/evidence/spectrum/treat/absorbance.ts';
import { correctAtr } from '../../src/core/evidence/spectrum/treat/atr.ts';
import { nearestTo } from '../../src/core/evidence/spectrum/treat/order.ts';
import { findPeaks } from '../../src/core/evidence/spectrum/treat/peaks.ts';
import { checkWavenumbers } from '../../src/core/evidence/spectrum/treat/polystyrene.ts';
import { qualityOf } from '../../src/core/evidence/spectrum/treat/quality.ts';
import { spectrumPeaks } from '../../src/core/evidence/spectrum/treat/spectrum-peaks.ts';
import {
  savitzkyGolay,
  savitzkyGolayCoefficients,
} from '../../src/core/evidence/spectrum/treat/smooth.ts';

describe('Savitzky–Golay coefficients as printed', () => {
  it.each(published.savitzkyGolay)(
    'degree $degree, derivative $derivative, over $norm',
    ({ degree, derivative, norm, coefficients }) => {
      const half = (coefficients.length - 1) / 2;
      const got = savitzkyGolayCoefficients(half, degree, derivative);
      got.forEach((each, i) => expect(each * norm).toBeCloseTo(coefficients[i]!, 8));
    },
  );
  it('a polynomial of its degree passes unchanged, to the very ends', () => {
    const x = Float64Array.from({ length: 40 }, (_, i) => i);
    const cubic = x.map((t) => 2 - t + 0.3 * t * t - 0.01 * t ** 3);
    const got = savitzkyGolay(cubic, { half: 4, degree: 3 });
    cubic.forEach((each, i) => expect(got[i]).toBeCloseTo(each, 8));
    const slope = savitzkyGolay(cubic, { half: 4, degree: 3, derivative: 1, step: 1 });
    x.forEach((t, i) => expect(slope[i]).toBeCloseTo(-1 + 0.6 * t - 0.03 * t * t, 8));
  });
});

describe('conversions', () => {
  it.each(published.absorbance)('T = $transmittance', ({ transmittance, absorbance }) => {
    expect(absorbanceOf(transmittance)).toBeCloseTo(absorbance, 5);
  });
  it.each(published.wavenumber)('$wavelength_um µm', ({ wavelength_um, wavenumber_percm }) => {
    const x = Float64Array.from({ length: 60 }, (_, i) => wavelength_um + 0.001 * i);
    const got = infraredOf({
      title: '',
      technique: 'infrared',
      kind: 'curve',
      x,
      y: x.map((each) => 0.1 * each),
      xUnit: 'um',
      yUnit: 'absorbance',
      headers: {},
      warnings: [],
    });
    expect(got.ok && got.spectrum.wavenumber_percm.at(-1)).toBeCloseTo(wavenumber_percm, 2);
  });
});

const folder = new URL('../../../shared/spectra/', import.meta.url);
const here = existsSync(new URL('peaks.csv', folder));
const said = here
  ? 'measured spectra'
  : 'measured spectra: SKIPPED, the folder shared/spectra is not here';

/** The first absorption spectrum of a file. */
function spectrumIn(file: string): InfraredSpectrum {
  const reading = readInstrumentFile(readFileSync(new URL(file, folder)), file);
  if (!reading.ok) throw new Error(`${file}: ${reading.problem.message}`);
  for (const trace of reading.traces) {
    const got = infraredOf(trace);
    if (got.ok) return got.spectrum;
  }
  throw new Error(`${file}: no absorption spectrum`);
}

/** Rows that the twins of this file, the same record in other forms, do not have. */
const NOT_THERE = {
  file: 'conformance/lancashire-public-domain/dupinc2.jdx',
  positions: [3744.3, 2914],
};
/** Single-beam records and spectra that are no infrared ones have rows in the list too. */
const NOT_JUDGED = [
  'conformance/mit/nicolet_LINK_16blocks.jdx',
  'conformance/lancashire-public-domain/dupinc1.jdx',
];

function rowsByFile(): Map<string, number[]> {
  const [head, ...rows] = readCsv(readFileSync(new URL('peaks.csv', folder), 'utf8'));
  const at = head!.indexOf('band_cm-1');
  const byFile = new Map<string, number[]>();
  for (const row of rows) {
    if (NOT_JUDGED.includes(row[0]!)) continue;
    if (row[0] === NOT_THERE.file && NOT_THERE.positions.includes(Number(row[at]))) continue;
    byFile.set(row[0]!, [...(byFile.get(row[0]!) ?? []), Number(row[at])]);
  }
  return byFile;
}

describe.skipIf(!here)(said, () => {
  // Highest points of the same curves, picked by another program (prominence of 5 % and more).
  const byFile = here ? rowsByFile() : new Map<string, number[]>();
  const tally = { rows: 0, within2: 0 };

  it.each([...byFile])('%s: every band of the list', (file, positions) => {
    const spectrum = spectrumIn(file);
    const { wavenumber_percm: x } = spectrum;
    const quality = qualityOf(spectrum);
    const peaks = spectrumPeaks(spectrum, quality, 0.01 * quality.highest);
    for (const position of positions) {
      const away = Math.min(...peaks.map((peak) => Math.abs(peak.position_percm - position)));
      tally.rows++;
      if (away <= 2) {
        tally.within2++;
        continue;
      }
      const peak = peaks.find((each) => Math.abs(each.position_percm - position) === away);
      // The list has the highest point itself: of coarse points up to half a step away
      const clipped = quality.saturated.some(
        ([from, to]) => position >= from - 2 && position <= to + 2,
      );
      const near = nearestTo(x, position);
      const spacing = (x[near + 1]! - x[near - 1]!) / 2;
      const allowed = Math.max(0.6 * spacing, 2 * (peak?.position_u_percm ?? 0));
      expect(clipped || away <= allowed, `${file} ${position}: ${away.toFixed(1)} away`).toBe(true);
    }
  });
  it('nine in ten of them within 2 cm⁻¹', () => {
    expect(tally.rows).toBeGreaterThan(440);
    expect(tally.within2 / tally.rows).toBeGreaterThan(0.9);
  });

  it.each(published.films)('$file: polystyrene $polystyrene, $verdict', (film) => {
    const report = checkWavenumbers(spectrumIn(film.file));
    expect(report.polystyrene).toBe(film.polystyrene);
    expect(report.verdict).toBe(film.verdict);
  });
  it('an instrument that is 2 cm⁻¹ off fails', () => {
    const film = spectrumIn('conformance/lancashire-public-domain/dupdec1.jdx');
    const off = { ...film, wavenumber_percm: film.wavenumber_percm.map((each) => each + 2) };
    const report = checkWavenumbers(off);
    expect(report).toMatchObject({ polystyrene: true, verdict: 'fails' });
    expect(report.offset_percm).toBeCloseTo(1.7, 0);
  });

  it.each(published.atr.substances)('%s: ATR corrected lies where transmission does', (name) => {
    const transmission = spectrumIn(`open/liquid-nk-cc0/${name}_transmission.csv`);
    const recorded = spectrumIn(`open/liquid-nk-cc0/${name}_atr-diamond.csv`);
    const { spectrum, settled } = correctAtr(recorded);
    expect(settled).toBe(true);
    const peaksOf = ({ wavenumber_percm: x, absorbance: y }: InfraredSpectrum, share: number) =>
      findPeaks(x, y, { minProminence: share * Math.max(...y), shoulders: false });
    const corrected = peaksOf(spectrum, 0.01);
    for (const { position_percm } of peaksOf(transmission, 0.05)) {
      const away = corrected.map((peak) => Math.abs(peak.position_percm - position_percm));
      expect(Math.min(...away), `${name} ${position_percm.toFixed(0)}`).toBeLessThan(3);
    }
  });
});
