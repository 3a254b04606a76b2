import type { Diagnostic } from '../../diagnostic.ts';
import type { IonMass } from './isotopes.ts';
import type { MassEntered, MassPeak } from './schema.ts';

/** Relative standard uncertainty of an intensity where none was given: common practice. */
const INTENSITY_U = 0.1;
/** Share of the base peak under which a peak decides nothing (common practice). */
export const NOISE_SHARE = 0.005;
/** At unit resolution m/z is written as a whole number or with one decimal. */
const UNIT_REACH = 0.3;

/** Peaks in order of m/z, scaled so that the base peak is 1. */
export interface PeakTable {
  readonly peaks: readonly MassPeak[];
  readonly base: MassPeak;
  /** An intensity's standard uncertainty, as a share of the base peak. */
  readonly u: (intensity: number) => number;
  /** Peaks under this share of the base peak may just not have been written down. */
  readonly least: number;
  readonly massU_ppm?: number;
}

export type PeakTableReading =
  | { readonly ok: true; readonly table: PeakTable }
  | { readonly ok: false; readonly problem: Diagnostic };

export function readPeaks(entered: MassEntered): PeakTableReading {
  const largest = Math.max(0, ...entered.peaks.map((peak) => peak.intensity));
  if (largest <= 0)
    return {
      ok: false,
      problem: {
        code: 'mass-no-peaks',
        severity: 'error',
        message: 'The mass spectrum has no peak with an intensity.',
        hint: 'Write down m/z and intensity of each peak, or add the file.',
      },
    };
  const peaks = entered.peaks
    .filter((peak) => peak.intensity > 0)
    .map(({ mz, intensity }) => ({ mz, intensity: intensity / largest }))
    .sort((a, b) => a.mz - b.mz);
  const relative =
    entered.intensityU_percent === undefined ? INTENSITY_U : entered.intensityU_percent / 100;
  const { massU_ppm } = entered;
  return {
    ok: true,
    table: {
      peaks,
      base: peaks.find((peak) => peak.intensity === 1)!,
      least: Math.max(NOISE_SHARE, Math.min(...peaks.map((peak) => peak.intensity))),
      u: (intensity) => Math.hypot(relative * intensity, NOISE_SHARE / 2),
      ...(massU_ppm === undefined ? {} : { massU_ppm }),
    },
  };
}

/** "156", "174.0528": as written, without zeros at the end. */
export function mzText(mz: number): string {
  return String(Number(mz.toFixed(4)));
}

/** The strongest peak near an ion, or near `above` mass numbers beyond it. */
export function peakAt(table: PeakTable, ion: IonMass, above = 0): MassPeak | undefined {
  const { massU_ppm } = table;
  const exact = ion.exact + above;
  const near = table.peaks.filter(({ mz }) => {
    // An isotope peak is not a whole number above: only the ion itself is held to the accuracy.
    if (massU_ppm !== undefined && above === 0)
      return Math.abs(mz - exact) <= Math.max((2 * massU_ppm * exact) / 1e6, 1e-6);
    return Math.abs(mz - exact) <= UNIT_REACH || Math.abs(mz - ion.nominal - above) <= UNIT_REACH;
  });
  return near.reduce<MassPeak | undefined>(
    (best, peak) => (best === undefined || peak.intensity > best.intensity ? peak : best),
    undefined,
  );
}
