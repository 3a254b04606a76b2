import type { InfraredSpectrum } from '../infrared.ts';
import { findPeaks } from './peaks.ts';
import type { Peak } from './peaks.ts';
import { noiseAt } from './quality.ts';
import type { Quality } from './quality.ts';

/** Of the highest absorbance above the baseline. */
const LEAST_SHARE = 0.01;
/** As in `findPeaks`: chance makes no summit as high as this. */
const LEAST_NOISE = 7;

/**
 * The bands of a spectrum, its noise and saturation taken into account: noise that grows with the
 * absorbance where transmittance was recorded, one peak for each saturated stretch. Heights are of
 * the absorbance as it is, baseline included.
 */
export function spectrumPeaks(
  spectrum: InfraredSpectrum,
  quality: Quality,
  minProminence = Math.max(LEAST_SHARE * quality.highest, LEAST_NOISE * quality.noise),
): Peak[] {
  return findPeaks(spectrum.wavenumber_percm, spectrum.absorbance, {
    minProminence,
    noise: quality.noise,
    noiseAt: (absorbance) => noiseAt(spectrum, quality, absorbance),
    saturated: quality.saturated,
  });
}
