import { interpolate } from './resample.ts';
import { linearFit } from './linear-fit.ts';

/** Interference between the faces of a film or a cell: a wave over the whole spectrum. */
export interface Fringes {
  /** From crest to crest. The path is 1 / (2 n · period). */
  readonly period_percm: number;
  /** Half of crest to trough, in absorbance. */
  readonly amplitude: number;
}

/** Stretches where few molecules absorb; CO2 and nitriles left out. */
const QUIET = [
  [1850, 2080],
  [2420, 2680],
] as const;
const POINTS = 64;
/** Shorter waves are water lines; longer ones fit less than twice into a stretch and are baseline. */
const SHORTEST_PERCM = 12;
const LONGEST_PERCM = 110;
/** The wave must leave at most this share of the variance, in both stretches together. */
const LEFT = 0.3;
/** And be this many times the noise. */
const ABOVE_NOISE = 2;

/** The wave that runs through the quiet stretches with one period, if there is one. */
export function fringesIn(x: Float64Array, y: Float64Array, noise: number): Fringes | undefined {
  const stretches = QUIET.filter(([low, high]) => x[0]! <= low && x.at(-1)! >= high);
  if (stretches.length < QUIET.length) return undefined;
  const waves = stretches.map(([low, high]) => straightened(x, y, low, high));
  let best: (Fringes & { left: number }) | undefined;
  for (let period = SHORTEST_PERCM; period <= LONGEST_PERCM; period *= 1.04) {
    const fits = waves.map((wave) => waveFit(wave, period));
    const left =
      fits.reduce((sum, fit) => sum + fit.left, 0) / fits.reduce((sum, fit) => sum + fit.all, 0);
    const amplitude = Math.min(...fits.map((fit) => fit.amplitude));
    if (best === undefined || left < best.left) best = { period_percm: period, amplitude, left };
  }
  if (best === undefined || best.left > LEFT || best.amplitude < ABOVE_NOISE * noise)
    return undefined;
  // The best at an end of the range is the flank of something else
  if (best.period_percm > LONGEST_PERCM / 1.1 || best.period_percm < SHORTEST_PERCM * 1.1)
    return undefined;
  const { period_percm, amplitude } = best;
  return { period_percm, amplitude };
}

interface Wave {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** An even stretch, its best parabola taken off. */
function straightened(x: Float64Array, y: Float64Array, low: number, high: number): Wave {
  const at = Float64Array.from(
    { length: POINTS },
    (_, i) => low + ((high - low) * i) / (POINTS - 1),
  );
  const values = interpolate(x, y, at);
  const tilt = at.map((each) => (each - low) / (high - low));
  const bend = tilt.map((each) => each * each);
  const fit = linearFit([new Float64Array(POINTS).fill(1), tilt, bend], values);
  return { x: at, y: fit?.residual ?? values };
}

/** Sine and cosine of one period by least squares: what is left, and the amplitude. */
function waveFit({ x, y }: Wave, period: number) {
  const turn = (2 * Math.PI) / period;
  let [cc, ss, cs, yc, ys, all] = [0, 0, 0, 0, 0, 0];
  // The angle grows by the same each time: a rotation instead of two functions a point
  const [dc, ds] = [Math.cos(turn * (x[1]! - x[0]!)), Math.sin(turn * (x[1]! - x[0]!))];
  let [c, s] = [1, 0];
  for (let i = 0; i < x.length; i++) {
    const v = y[i]!;
    cc += c * c;
    ss += s * s;
    cs += c * s;
    yc += v * c;
    ys += v * s;
    all += v * v;
    [c, s] = [c * dc - s * ds, s * dc + c * ds];
  }
  const determinant = cc * ss - cs * cs;
  if (!(determinant > 1e-9)) return { left: all, all, amplitude: 0 };
  const a = (yc * ss - ys * cs) / determinant;
  const b = (ys * cc - yc * cs) / determinant;
  return { left: Math.max(0, all - a * yc - b * ys), all, amplitude: Math.hypot(a, b) };
}
