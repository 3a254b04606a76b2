import type { InfraredSpectrum } from '../infrared.ts';
import { baselineOf } from '../treat/baseline.ts';
import { qualityOf } from '../treat/quality.ts';
import { spectrumPeaks } from '../treat/spectrum-peaks.ts';

/** A band of a spectrum of the library. */
export interface KeptBand {
  readonly position_percm: number;
  /** Its prominence, as a share of that of the most prominent band: 0 to 1. */
  readonly share: number;
}

/** More tell nothing more, and nobody searches for the fortieth. */
const MOST_BANDS = 40;
const AIR_PERCM = [2280, 2390] as const;

/** The bands that a spectrum is found by, by falling wavenumber; those of CO₂ of the air left out. */
export function keptBands(spectrum: InfraredSpectrum): KeptBand[] {
  const { wavenumber_percm: x, absorbance: y } = spectrum;
  const peaks = spectrumPeaks(spectrum, qualityOf(spectrum, baselineOf(x, y))).filter(
    ({ position_percm: at }) => at < AIR_PERCM[0] || at > AIR_PERCM[1],
  );
  const most = Math.max(...peaks.map(({ prominence }) => prominence));
  return peaks
    .toSorted((a, b) => b.prominence - a.prominence)
    .slice(0, MOST_BANDS)
    .map(({ position_percm, prominence }) => ({
      position_percm: Math.round(10 * position_percm) / 10,
      share: Math.round((1000 * prominence) / most) / 1000,
    }))
    .sort((a, b) => b.position_percm - a.position_percm);
}
