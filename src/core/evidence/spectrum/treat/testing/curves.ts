import { seededRandom } from '../../../../quantity/random.ts';
import type { InfraredSpectrum } from '../../infrared.ts';
import type { MeasuredTrace } from '../../trace.ts';

/** A band of known place, full width at half height, and height. */
export interface KnownBand {
  readonly position: number;
  readonly width: number;
  readonly height: number;
  readonly shape?: 'gauss' | 'lorentz';
}

export function evenly(from: number, to: number, step: number): Float64Array {
  return Float64Array.from(
    { length: Math.round((to - from) / step) + 1 },
    (_, i) => from + i * step,
  );
}

/** The sum of the bands at each x. */
export function bandsAt(x: Float64Array, bands: readonly KnownBand[]): Float64Array {
  return x.map((place) => {
    let sum = 0;
    for (const { position, width, height, shape } of bands) {
      const d = (place - position) / width;
      sum +=
        shape === 'lorentz' ? height / (1 + 4 * d * d) : height * Math.exp(-4 * Math.LN2 * d * d);
    }
    return sum;
  });
}

/** y with normal noise of standard deviation `sigma`; the same seed gives the same noise. */
export function noisy(y: Float64Array, sigma: number, seed: number): Float64Array {
  const { normal } = seededRandom(seed);
  return y.map((value) => value + sigma * normal());
}

/** Bands far enough apart to stand alone, and shoulders on some of them. */
export function randomBands(seed: number): { bands: KnownBand[]; shoulders: KnownBand[] } {
  const { uniform } = seededRandom(seed);
  const bands: KnownBand[] = [];
  const shoulders: KnownBand[] = [];
  let position = 680;
  while (position < 3800) {
    const width = 10 + 20 * uniform();
    const height = 0.1 + 0.9 * uniform();
    const shape = uniform() < 0.5 ? 'gauss' : 'lorentz';
    bands.push({ position, width, height, shape });
    if (width > 14 && uniform() < 0.3)
      shoulders.push({
        position: position + 0.85 * width,
        width: 0.8 * width,
        height: 0.4 * height,
        shape,
      });
    position += 3.5 * width + 120 * uniform();
  }
  return { bands, shoulders };
}

export function traceOf(
  x: Float64Array,
  y: Float64Array,
  rest: Partial<MeasuredTrace> = {},
): MeasuredTrace {
  return {
    title: 'a trace',
    technique: 'infrared',
    kind: 'curve',
    x,
    y,
    xUnit: '1/cm',
    yUnit: 'absorbance',
    headers: {},
    warnings: [],
    ...rest,
  };
}

export function spectrumOf(
  x: Float64Array,
  absorbance: Float64Array,
  rest: Partial<InfraredSpectrum> = {},
): InfraredSpectrum {
  return {
    title: 'a spectrum',
    wavenumber_percm: x,
    absorbance,
    recordedAs: 'absorbance',
    gaps: [],
    positionU_percm: 0.5,
    ...rest,
  };
}
