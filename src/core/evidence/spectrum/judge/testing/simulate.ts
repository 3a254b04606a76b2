import type { InfraredSpectrum, SampleState } from '../../infrared.ts';
import type { Molecule } from './molecules.ts';

/** What is done to a spectrum on its way to paper and back. */
export interface Distortion {
  readonly state: SampleState;
  readonly seed: number;
  /** Absorbance of the tallest band. */
  readonly strength: number;
  readonly noise: number;
  /** Rise of the baseline from 400 to 4000, as of a scattering solid. */
  readonly slope: number;
  readonly offset: number;
  /** Error of every position, constant over the record. */
  readonly shift_percm: number;
  /** Absorbance beyond which the paper shows nothing more. */
  readonly ceiling: number;
  readonly grid: 'wavenumber' | 'micrometre';
  readonly step_percm: number;
  /** Moisture of the disc, as a share of the tallest band. */
  readonly water: number;
}

/** A small generator with a seed (mulberry32): the same spectrum every time. */
export function randomOf(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = Math.imul(a ^ (a >>> 15), a | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export function normalOf(random: () => number): () => number {
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

interface Band {
  readonly position_percm: number;
  readonly height: number;
  readonly width_percm: number;
}

export function bandsIn(molecule: Molecule): Band[] {
  return molecule.bands.split(/\s+/).map((text) => {
    const [position = 0, height = 0, width = 18] = text.split('/').map(Number);
    return { position_percm: position, height, width_percm: width };
  });
}

const NUJOL: readonly Band[] = [
  { position_percm: 2955, height: 0.9, width_percm: 22 },
  { position_percm: 2923, height: 1.4, width_percm: 28 },
  { position_percm: 2854, height: 1.1, width_percm: 20 },
  { position_percm: 1462, height: 0.8, width_percm: 16 },
  { position_percm: 1377, height: 0.5, width_percm: 12 },
  { position_percm: 722, height: 0.15, width_percm: 14 },
];

/** A distortion such as old collections show, drawn from a seed. */
export function usualDistortion(state: SampleState, seed: number): Distortion {
  const random = randomOf(seed * 7919 + 13);
  const normal = normalOf(random);
  const solid = state === 'disc' || state === 'mull';
  const digitised = state !== 'gas' && random() < 0.7;
  return {
    state,
    seed,
    strength: Math.exp(Math.log(state === 'gas' ? 0.4 : 0.9) + 0.5 * normal()),
    noise: state === 'gas' ? 0.0015 + 0.004 * random() : 0.001 + 0.004 * random(),
    slope: solid ? 0.35 * random() : 0.04 * random(),
    offset: 0.02 + 0.15 * random(),
    shift_percm: digitised ? 5 * normal() : normal(),
    ceiling: 1 + 1.2 * random(),
    grid: digitised && random() < 0.4 ? 'micrometre' : 'wavenumber',
    step_percm: state === 'gas' ? 4 : 1 + 3 * random(),
    water: state === 'disc' ? Math.exp(Math.log(0.1) + 0.8 * normal()) : random() < 0.1 ? 0.03 : 0,
  };
}

/**
 * Absorbance of a molecule on the instrument: bands between Lorentz and Gauss shape, each moved and
 * scaled a little from record to record, then everything the distortion says.
 */
export function simulated(molecule: Molecule, distortion: Distortion): InfraredSpectrum {
  const random = randomOf(distortion.seed * 104729 + molecule.name.length * 31 + 7);
  const normal = normalOf(random);
  const bands = [
    ...bandsIn(molecule)
      .flatMap((band) => (distortion.state === 'solution' ? dissolved(band) : [band]))
      .map((band) => varied(band, normal)),
    ...(distortion.state === 'mull' ? NUJOL : []),
    ...waterOf(distortion.water),
  ];
  const lines: { x: number; y: number }[] = [];
  for (const x of gridOf(distortion)) {
    const true_percm = x - distortion.shift_percm;
    let sum = 0;
    for (const band of bands) sum += shapeOf(band, true_percm, distortion.state);
    const rise = (x - 400) / 3600;
    const y = distortion.strength * sum + distortion.slope * rise ** 2 + distortion.offset;
    const seen = distortion.ceiling * (1 - Math.exp(-((y / distortion.ceiling) ** 3))) ** (1 / 3);
    lines.push({ x, y: seen + distortion.noise * normal() * (1 + seen) });
  }
  return {
    title: molecule.name,
    wavenumber_percm: Float64Array.from(lines, ({ x }) => x),
    absorbance: Float64Array.from(lines, ({ y }) => y),
    recordedAs: 'transmittance',
    state: distortion.state,
    gaps: [],
    positionU_percm: distortion.grid === 'micrometre' ? 6 : 2,
  };
}

function varied(band: Band, normal: () => number): Band {
  const broad = band.width_percm > 80;
  return {
    position_percm: band.position_percm + normal() * (broad ? 0.1 * band.width_percm : 2.5),
    height: band.height * Math.exp(0.18 * normal()),
    width_percm: band.width_percm * Math.exp(0.15 * normal()),
  };
}

/** In a solution of a tenth part of the bonded O–H is free, and absorbs near 3620. */
function dissolved(band: Band): Band[] {
  if (band.position_percm < 3250 || band.width_percm < 150) return [band];
  const free = { position_percm: 3622, height: 0.3 * band.height, width_percm: 26 };
  return [{ ...band, height: 0.75 * band.height }, free];
}

function waterOf(share: number): Band[] {
  if (share === 0) return [];
  return [
    { position_percm: 3440, height: share, width_percm: 260 },
    { position_percm: 3250, height: 0.35 * share, width_percm: 200 },
    { position_percm: 1634, height: 0.3 * share, width_percm: 70 },
  ];
}

function gridOf({ grid, step_percm }: Distortion): number[] {
  const points: number[] = [];
  if (grid === 'wavenumber') {
    for (let x = 460; x <= 3900; x += step_percm) points.push(x);
    return points;
  }
  for (let um = 15; um >= 2.56; um -= 0.012) points.push(1e4 / um);
  return points;
}

/**
 * Half Lorentz, half Gauss; broad bands fall off more slowly to low wavenumbers, as bonded O–H
 * does. In the gas a narrow band has its P and R wings, 24 cm⁻¹ apart.
 */
function shapeOf(
  { position_percm, height, width_percm }: Band,
  x: number,
  state: SampleState,
): number {
  const away = x - position_percm;
  if (Math.abs(away) > 12 * width_percm + 60) return 0;
  if (state === 'gas' && width_percm < 60)
    return (
      height * (0.75 * peak(away, 10) + 0.55 * (peak(away - 12, 16) + peak(away + 12, 16))) * 0.75
    );
  const skew = width_percm > 120 ? (away > 0 ? 0.85 : 1.15) : 1;
  return height * peak(away, width_percm * skew);
}

function peak(away: number, width: number): number {
  const z = (2 * away) / width;
  return 0.5 / (1 + z * z) + 0.5 * Math.exp(-Math.LN2 * z * z);
}
