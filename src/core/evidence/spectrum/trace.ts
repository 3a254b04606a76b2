import type { Diagnostic } from '../../diagnostic.ts';

export type TraceTechnique =
  'infrared' | 'nmr' | 'mass' | 'chromatogram' | 'ultraviolet' | 'raman' | 'unknown';

/** Units as the program names them, whatever the file wrote. */
export type XUnit = '1/cm' | 'um' | 'nm' | 'ppm' | 'Hz' | 'm/z' | 's' | 'min' | 'unknown';

/** Transmittance is kept as a fraction, 0 to 1, whether the file wrote percent or not. */
export type YUnit =
  | 'absorbance'
  | 'transmittance'
  | 'reflectance'
  | 'absorptionIndex'
  | 'refractiveIndex'
  | 'arbitrary'
  | 'unknown';

/**
 * One curve or list of peaks as an instrument wrote it: x rises, y at the same place, NaN where
 * the file has no value. Nothing is smoothed, scaled or put on another grid.
 */
export interface MeasuredTrace {
  readonly title: string;
  readonly technique: TraceTechnique;
  readonly kind: 'curve' | 'peaks';
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly xUnit: XUnit;
  readonly yUnit: YUnit;
  /** "liquid film", "KBr disc", "gas": as the file says, where it says. */
  readonly state?: string;
  readonly resolution_percm?: number;
  /** MHz, of an NMR spectrum: ppm = Hz / MHz. */
  readonly frequency_MHz?: number;
  /** Every header of the file, the label as in the standard: upper case, no spaces, _, / or -. */
  readonly headers: Readonly<Record<string, string>>;
  /** What was odd in the file and how it was read. */
  readonly warnings: readonly Diagnostic[];
}

/** A file from an instrument: read, with warnings of its own, or refused with the place and the reason. */
export type FileReading =
  | {
      readonly ok: true;
      readonly format: 'jcamp' | 'table';
      readonly traces: readonly MeasuredTrace[];
    }
  | { readonly ok: false; readonly problem: Diagnostic };
