import type { InfraredSpectrum } from '../infrared.ts';
import { FILM_UM, filmAbsorbance } from './absorbance.ts';
import { fourier } from './fourier.ts';
import { interpolate } from './resample.ts';

/** Refractive indices of crystals in the middle infrared. Handbook values, from memory. */
export const CRYSTALS = { diamond: 2.4, zincSelenide: 2.43, germanium: 4.0 } as const;

export type Crystal = keyof typeof CRYSTALS;

export interface AtrOptions {
  readonly crystal?: Crystal;
  /** Of the sample, far from its bands: most organic liquids and solids have 1.4 to 1.6. */
  readonly sampleIndex?: number;
  readonly angle_deg?: number;
  readonly bounces?: number;
}

/** An organic liquid or solid. Common practice. */
const SAMPLE_INDEX = 1.5;
const ANGLE_DEG = 45;
const ROUNDS = 12;
/** Computed against measured absorbance, root mean square over the highest: near enough to stop. */
const ENOUGH = 5e-4;
/** And still good enough to be used. */
const USABLE = 0.02;
/** For slopes by differences. */
const SMALL = 1e-5;
/** Of one step of k: the strongest organic bands reach 1 or so. */
const LARGEST = 0.2;

interface Geometry {
  readonly n1: number;
  readonly n2: number;
  readonly sine2: number;
  readonly cosine: number;
  readonly bounces: number;
}

function geometryOf(options: AtrOptions): Geometry {
  const angle = ((options.angle_deg ?? ANGLE_DEG) * Math.PI) / 180;
  return {
    n1: CRYSTALS[options.crystal ?? 'diamond'],
    n2: options.sampleIndex ?? SAMPLE_INDEX,
    sine2: Math.sin(angle) ** 2,
    cosine: Math.cos(angle),
    bounces: options.bounces ?? 1,
  };
}

/**
 * Heights as in transmission, by depth alone: the light reaches dp = 1/(2πν̃·√(n₁²sin²θ − n₂²)) into
 * the sample (Harrick 1967), so that bands at low wavenumbers come out too strong. Scaled to stay the
 * same at 1000 cm⁻¹. Positions are not touched.
 */
export function scaleDepth(x: Float64Array, y: Float64Array): Float64Array {
  return y.map((each, i) => (each * x[i]!) / 1000);
}

export interface AtrCorrected {
  /** The absorbance of a film of 5 µm. */
  readonly spectrum: InfraredSpectrum;
  readonly rounds: number;
  /** Computed − measured absorbance, root mean square, over the highest measured. */
  readonly misfit: number;
  /** False: no absorption was found that fits, and heights alone were scaled by depth. */
  readonly settled: boolean;
}

/**
 * The spectrum that transmission would give. Where the sample absorbs, its refractive index swings,
 * and bands of ATR lean to lower wavenumbers; the index follows from the absorption itself (Kramers
 * and Kronig). In turn: index from absorption, reflectance from both by Fresnel's equations
 * (unpolarised light), absorption corrected by what is missing from the measured absorbance (the
 * scheme of Bertie and Eysel 1985, Appl. Spectrosc. 39, 392, from memory; the step is our own).
 * Absorption beyond the ends of the spectrum is taken as nought, contact as perfect.
 */
export function correctAtr(spectrum: InfraredSpectrum, options: AtrOptions = {}): AtrCorrected {
  const geometry = geometryOf(options);
  const grid = evenGridFor(spectrum);
  const measured = interpolate(spectrum.wavenumber_percm, spectrum.absorbance, grid);
  const start = SMALL / atrAbsorbance(geometry.n2, SMALL, geometry);
  let k = measured.map((a) => Math.max(0, a) * start);
  let best = { k, misfit: Infinity };
  let rounds = 0;
  while (rounds < ROUNDS && best.misfit > ENOUGH) {
    const { next, misfit } = nextIndex(grid, measured, k, geometry);
    if (misfit < best.misfit) best = { k, misfit };
    k = next;
    rounds++;
  }
  const settled = best.misfit <= USABLE;
  const onGrid = settled
    ? best.k.map((each, i) => filmAbsorbance(each, grid[i]!, FILM_UM))
    : scaleDepth(grid, measured);
  const absorbance = interpolate(grid, onGrid, spectrum.wavenumber_percm);
  const { state: _state, ...rest } = spectrum;
  return { spectrum: { ...rest, absorbance, state: 'film' }, rounds, misfit: best.misfit, settled };
}

/**
 * One step towards the k whose computed absorbance is the measured one. A change of k moves the
 * absorbance by ∂A/∂k and, through the index, by ∂A/∂n times its Kramers–Kronig transform H. Since
 * H twice is −1, (∂A/∂k − H ∂A/∂n) / ((∂A/∂k)² + (∂A/∂n)²) undoes both where the slopes change slowly.
 */
function nextIndex(
  grid: Float64Array,
  measured: Float64Array,
  k: Float64Array,
  geometry: Geometry,
): { readonly next: Float64Array<ArrayBuffer>; readonly misfit: number } {
  const swing = kramersKronig(grid, k);
  const size = k.length;
  const [byK, byN, missing] = [0, 0, 0].map(() => new Float64Array(size)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  let [squares, highest] = [0, 0];
  for (let i = 0; i < size; i++) {
    const n = geometry.n2 + swing[i]!;
    const here = atrAbsorbance(n, k[i]!, geometry);
    byK[i] = (atrAbsorbance(n, k[i]! + SMALL, geometry) - here) / SMALL;
    byN[i] = (atrAbsorbance(n + SMALL, k[i]!, geometry) - here) / SMALL;
    missing[i] = measured[i]! - here;
    squares += missing[i]! ** 2;
    highest = Math.max(highest, measured[i]!);
  }
  const back = kramersKronig(
    grid,
    byN.map((slope, i) => slope * missing[i]!),
  );
  const next = Float64Array.from(k, (each, i) => {
    const gain = byK[i]! ** 2 + byN[i]! ** 2;
    const step = gain > 0 ? (byK[i]! * missing[i]! - back[i]!) / gain : 0;
    return Math.max(0, each + Math.max(-LARGEST, Math.min(LARGEST, step)));
  });
  const misfit = highest > 0 ? Math.sqrt(squares / size) / highest : 0;
  return { next, misfit: Number.isFinite(misfit) ? misfit : Infinity };
}

/** An even grid of 1 cm⁻¹ or so over the spectrum. */
function evenGridFor({ wavenumber_percm: x }: InfraredSpectrum): Float64Array {
  const span = x.at(-1)! - x[0]!;
  const count = Math.min(8192, Math.max(512, Math.round(span)));
  return Float64Array.from({ length: count }, (_, i) => x[0]! + (span * i) / (count - 1));
}

/**
 * −log₁₀ of the reflectance at the face of the crystal, unpolarised: Fresnel's equations with the
 * complex index n + ik of the sample, all bounces alike.
 */
export function atrAbsorbance(n: number, k: number, geometry: Geometry): number {
  const { n1, sine2, cosine, bounces } = geometry;
  // (n + ik)² and q = √((n + ik)² − n1² sin²θ), the root with a positive imaginary part
  const [er, ei] = [n * n - k * k, 2 * n * k];
  const dr = er - n1 * n1 * sine2;
  const size = Math.hypot(dr, ei);
  const qi = Math.sqrt(Math.max(0, (size - dr) / 2));
  const qr = qi > 0 ? ei / (2 * qi) : Math.sqrt(Math.max(0, dr));
  const c1 = n1 * cosine;
  const rs = ((c1 - qr) ** 2 + qi * qi) / ((c1 + qr) ** 2 + qi * qi);
  // ε·cosθ against n1·q
  const [ar, ai] = [er * cosine, ei * cosine];
  const [br, bi] = [n1 * qr, n1 * qi];
  const rp = ((ar - br) ** 2 + (ai - bi) ** 2) / ((ar + br) ** 2 + (ai + bi) ** 2);
  return -Math.log10((rs ** bounces + rp ** bounces) / 2);
}

/**
 * n(ν̃) − n∞ = (2/π) P∫ s·k(s)/(s² − ν̃²) ds: the Hilbert transform of k, made odd about nought. By
 * Fourier transform on the even grid, with room around for what wraps over.
 */
function kramersKronig(grid: Float64Array, k: Float64Array): Float64Array<ArrayBuffer> {
  const step = grid[1]! - grid[0]!;
  const first = Math.round(grid[0]! / step);
  const length = 2 ** Math.ceil(Math.log2(4 * (first + grid.length)));
  const re = new Float64Array(length);
  const im = new Float64Array(length);
  for (let i = 0; i < k.length; i++) {
    re[first + i] = k[i]!;
    if (first + i > 0) re[length - first - i] = -k[i]!;
  }
  fourier(re, im);
  // Times −i·sign of the frequency
  for (let i = 0; i < length; i++) {
    const sign = i === 0 || i === length / 2 ? 0 : i < length / 2 ? 1 : -1;
    [re[i], im[i]] = [sign * im[i]!, -sign * re[i]!];
  }
  fourier(re, im, true);
  return Float64Array.from(k, (_, i) => -re[first + i]! / length);
}
