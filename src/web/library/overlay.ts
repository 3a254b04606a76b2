import type { InfraredSpectrum } from '../../core/evidence/spectrum/infrared.ts';
import { baselineOf } from '../../core/evidence/spectrum/treat/baseline.ts';
import { spectrumViewOf, tracesShown } from '../../picture/spectrum/judged-view.ts';
import type { Overlay } from '../../picture/spectrum/judged-view.ts';
import type { SpectrumView } from '../../picture/spectrum/spectrum-view.ts';

function above(spectrum: InfraredSpectrum): { heights: Float64Array; highest: number } {
  const { wavenumber_percm: x, absorbance } = spectrum;
  const background = baselineOf(x, absorbance);
  const heights = absorbance.map((each, i) => each - background[i]!);
  return { heights, highest: heights.reduce((most, each) => Math.max(most, each), 0) };
}

/** A spectrum without its background, its highest band as high as that of the other. */
export function toHeightOf(other: InfraredSpectrum, spectrum: InfraredSpectrum): InfraredSpectrum {
  const own = above(spectrum);
  const factor = own.highest > 0 ? above(other).highest / own.highest : 1;
  return { ...spectrum, absorbance: own.heights.map((each) => factor * each) };
}

/** Two spectra over each other, both without background and equally high; or one alone, as it is. */
export function overlaid(
  name: string,
  spectrum: InfraredSpectrum,
  reference?: { readonly name: string; readonly spectrum: InfraredSpectrum },
): SpectrumView {
  const shown = (own: InfraredSpectrum, overlays: readonly Overlay[]) =>
    spectrumViewOf(tracesShown(name, own, overlays), own, undefined, undefined);
  if (reference === undefined) return shown(spectrum, []);
  const level = toHeightOf(spectrum, spectrum);
  const over = {
    id: 'reference',
    label: reference.name,
    role: 'reference' as const,
    spectrum: toHeightOf(spectrum, reference.spectrum),
  };
  return shown(level, [over]);
}
