import table from '../../../facts/polystyrene.json' with { type: 'json' };
import { numberIn, rowsOf } from '../../../facts/table.ts';
import type { InfraredSpectrum } from '../infrared.ts';
import { medianOf, stepsOf } from './order.ts';
import type { Peak } from './peaks.ts';
import { qualityOf } from './quality.ts';
import { spectrumPeaks } from './spectrum-peaks.ts';

export type CheckVerdict = 'passes' | 'fails' | 'cannotTell';

/** One band of the film, as published and as found. */
export interface WavenumberCheck {
  readonly expected_percm: number;
  readonly tolerance_percm: number;
  readonly vibration: string;
  readonly source: string;
  /** Absent: no band near there, or the spectrum does not reach. */
  readonly found_percm?: number;
  /** Found − expected. */
  readonly deviation_percm?: number;
  /** Standard uncertainty of the reading: the fit of the top, and the spacing. */
  readonly u_percm?: number;
  /** `cannotTell`: not found, or nearer to the limit than twice the uncertainty of the reading. */
  readonly verdict: CheckVerdict;
}

export interface WavenumberReport {
  /** Whether this is a polystyrene film at all; nothing is said of the instrument where it is not. */
  readonly polystyrene: boolean;
  readonly checks: readonly WavenumberCheck[];
  /** `passes`: no band fails and most pass. */
  readonly verdict: CheckVerdict;
  /** Mean deviation of the bands found: a scale that is off as a whole. NaN of none. */
  readonly offset_percm: number;
}

const BANDS = rowsOf(table).map((row) => ({
  expected_percm: numberIn(row['position_percm'])!,
  tolerance_percm: numberIn(row['tolerance_percm'])!,
  vibration: row['vibration']!,
  source: row['source']!,
}));

/** A band is first looked for this far away: an instrument may be badly off. */
const NEAR_PERCM = 10;
/** Then this far from where the others say that it is. */
const NEARER_PERCM = 3.5;
/** Fewer of the bands, and it is another substance. */
const FEWEST = 5;
/** The strongest two of the film, ring bends. From memory. */
const STRONGEST = [698, 757] as const;
const STRONG = 0.15;
const PROMINENT = 0.003;

/**
 * Is this polystyrene, and does each band of the film lie where the pharmacopoeia has it? A band that
 * something else hides is not held against the instrument.
 */
export function checkWavenumbers(spectrum: InfraredSpectrum): WavenumberReport {
  const { wavenumber_percm: x } = spectrum;
  const quality = qualityOf(spectrum);
  const { noise, highest } = quality;
  const minProminence = Math.max(5 * noise, PROMINENT * highest);
  const peaks = spectrumPeaks(spectrum, quality, minProminence).filter(
    ({ kind }) => kind === 'peak',
  );
  const ofSpacing = medianOf(stepsOf(x)) / Math.sqrt(12);
  const shift = shiftOf(peaks);
  const checks = BANDS.map((band): WavenumberCheck => {
    const found = nearestTo(peaks, band.expected_percm + shift, NEARER_PERCM);
    if (found === undefined) return { ...band, verdict: 'cannotTell' };
    const deviation_percm = found.position_percm - band.expected_percm;
    const u_percm = Math.hypot(found.position_u_percm, ofSpacing);
    const verdict = verdictOf(Math.abs(deviation_percm), band.tolerance_percm, u_percm);
    return { ...band, found_percm: found.position_percm, deviation_percm, u_percm, verdict };
  });
  const deviations = checks.flatMap(({ deviation_percm: d }) => (d === undefined ? [] : [d]));
  const polystyrene =
    deviations.length >= FEWEST && STRONGEST.every((place) => isStrong(peaks, place, x, highest));
  return {
    polystyrene,
    checks,
    verdict: polystyrene ? overall(checks) : 'cannotTell',
    offset_percm: deviations.reduce((sum, d) => sum + d, 0) / deviations.length,
  };
}

function verdictOf(away: number, tolerance: number, u: number): CheckVerdict {
  if (away <= tolerance) return 'passes';
  return away > tolerance + 2 * u ? 'fails' : 'cannotTell';
}

function overall(checks: readonly WavenumberCheck[]): CheckVerdict {
  if (checks.some(({ verdict }) => verdict === 'fails')) return 'fails';
  const passed = checks.filter(({ verdict }) => verdict === 'passes').length;
  return passed > checks.length / 2 ? 'passes' : 'cannotTell';
}

/** How far the scale is off, by the middle one of the bands near enough. */
function shiftOf(peaks: readonly Peak[]): number {
  const shifts = BANDS.flatMap(({ expected_percm }) => {
    const found = nearestTo(peaks, expected_percm, NEAR_PERCM);
    return found === undefined ? [] : [found.position_percm - expected_percm];
  });
  return shifts.length === 0 ? 0 : medianOf(Float64Array.from(shifts));
}

function nearestTo(peaks: readonly Peak[], place: number, within: number): Peak | undefined {
  let best: Peak | undefined;
  for (const peak of peaks) {
    const away = Math.abs(peak.position_percm - place);
    if (away > within) continue;
    if (best === undefined || away < Math.abs(best.position_percm - place)) best = peak;
  }
  return best;
}

/** Or out of range, which says nothing. */
function isStrong(
  peaks: readonly Peak[],
  place: number,
  x: Float64Array,
  highest: number,
): boolean {
  if (x[0]! > place - 10) return true;
  return peaks.some(
    (peak) =>
      Math.abs(peak.position_percm - place) < 2 * NEAR_PERCM && peak.prominence > STRONG * highest,
  );
}
