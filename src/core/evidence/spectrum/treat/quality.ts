import type { InfraredSpectrum } from '../infrared.ts';
import { baselineOf } from './baseline.ts';
import { fringesIn } from './fringes.ts';
import type { Fringes } from './fringes.ts';
import { noiseOf } from './noise.ts';
import { indexAt, medianOf, quantileOf, stepsOf } from './order.ts';
import { carbonDioxideIn, waterVapourIn } from './regions.ts';
import type { AirBand } from './regions.ts';
import { saturatedIn } from './saturated.ts';
import type { Stretch } from './saturated.ts';

/** The background under the bands, in absorbance. */
export interface Background {
  /** Its lowest place. */
  readonly offset: number;
  /** Change from 2000 to the upper end (4000 at most), per 1000 cm⁻¹: scattering solids rise. */
  readonly slope_per1000: number;
  /** From its lowest to its highest place. */
  readonly rise: number;
}

/** How good a spectrum is, as a measurement; what is judged from it depends on it. */
export interface Quality {
  /** Standard deviation of the absorbance at a point, where it is near the baseline. */
  readonly noise: number;
  /** As the file says; else two points, which is the best that it can be. */
  readonly resolution_percm: number;
  readonly resolutionFrom: 'file' | 'spacing';
  readonly range: Stretch;
  /** Too strong to be measured, by rising wavenumber. */
  readonly saturated: readonly Stretch[];
  /** The highest absorbance above the baseline. */
  readonly highest: number;
  /** Hardly anything in the beam: a poor contact, a film too thin. */
  readonly tooWeak: boolean;
  readonly background: Background;
  readonly fringes?: Fringes;
  readonly carbonDioxide?: AirBand;
  readonly waterVapour?: AirBand;
}

/** No record has less; a curve worked out or drawn between points has none of its own. */
const LEAST_NOISE = 1e-6;
/** Below it noise, air and baseline are as large as the bands looked for. Common practice. */
const WEAK = 0.05;

/**
 * Noise, resolution, saturation, background, fringes and air of a spectrum. `baseline` is that of
 * `baselineOf`, one value a point; it is worked out where it is not given.
 */
export function qualityOf(
  spectrum: InfraredSpectrum,
  baseline: Float64Array = baselineOf(spectrum.wavenumber_percm, spectrum.absorbance),
): Quality {
  const { wavenumber_percm: x, absorbance } = spectrum;
  const y = absorbance.map((each, i) => each - baseline[i]!);
  const noise = Math.max(LEAST_NOISE, noiseOf(y));
  const highest = y.reduce((most, each) => Math.max(most, each), 0);
  const fringes = fringesIn(x, y, noise);
  const inGas = spectrum.state === 'gas';
  // A vapour has lines of its own; a comb of them would be taken for water
  const waterVapour = inGas ? undefined : waterVapourIn(x, y);
  const carbonDioxide = carbonDioxideIn(x, y, noise);
  return {
    noise,
    resolution_percm: spectrum.resolution_percm ?? 2 * medianOf(stepsOf(x)),
    resolutionFrom: spectrum.resolution_percm === undefined ? 'spacing' : 'file',
    range: [x[0]!, x.at(-1)!],
    saturated: saturatedIn(spectrum),
    highest,
    tooWeak: highest < WEAK,
    background: backgroundOf(x, baseline),
    ...(fringes === undefined ? {} : { fringes }),
    ...(carbonDioxide === undefined ? {} : { carbonDioxide }),
    ...(waterVapour === undefined ? {} : { waterVapour }),
  };
}

function backgroundOf(x: Float64Array, baseline: Float64Array): Background {
  const sorted = Float64Array.from(baseline).sort();
  const offset = quantileOf(sorted, 0);
  const last = Math.min(x.length, indexAt(x, 4000)) - 1;
  const first = Math.min(indexAt(x, 2000), last);
  const span = x[last]! - x[first]!;
  const slope = span > 500 ? (baseline[last]! - baseline[first]!) / span : 0;
  return { offset, slope_per1000: 1000 * slope, rise: quantileOf(sorted, 1) - offset };
}

/**
 * The noise of the absorbance at one absorbance. Where the instrument recorded transmittance, its
 * noise there is the same everywhere, and that of A = −log₁₀ T grows as 1/T.
 */
export function noiseAt(spectrum: InfraredSpectrum, quality: Quality, absorbance: number): number {
  if (spectrum.recordedAs !== 'transmittance') return quality.noise;
  return quality.noise * 10 ** Math.max(0, absorbance - quality.background.offset);
}
