import * as z from 'zod';
import { MOST_PEAKS } from './limits.ts';

export const DETECTORS = ['fid', 'tcd', 'uv', 'refractiveIndex', 'ms', 'other'] as const;

export type Detector = (typeof DETECTORS)[number];

/** `solvent` is what the sample was dissolved in; `blank` also shows without a sample. */
export const PEAK_ROLES = ['sample', 'solvent', 'internalStandard', 'blank'] as const;

export type PeakRole = (typeof PEAK_ROLES)[number];

const name = z.string().min(1).max(200);
const time = z.number().min(0).max(10_000);
const width = z.number().positive().max(1000);
/** Areas below 0 are entered as the instrument gave them, and reported. */
const area = z.number().min(-1e15).max(1e15);
const mass_mg = z.number().positive().max(1e6);
const relative = z.number().min(0).max(1);

const peakSchema = z
  .strictObject({
    retention_min: time,
    area,
    name: name.exactOptional(),
    role: z.enum(PEAK_ROLES).exactOptional(),
    /** At half the height: what pharmacopoeias use. */
    halfWidth_min: width.exactOptional(),
    /** At the base, between the tangents. */
    baseWidth_min: width.exactOptional(),
    /** At a twentieth of the height: the whole width, and its part before the top. */
    foot: z.strictObject({ width_min: width, front_min: width }).readonly().exactOptional(),
  })
  .readonly();

const responseSchema = z
  .strictObject({
    name,
    /** Area for a mass, against that of a chosen substance whose factor is 1. */
    factor: z.number().positive().max(1e6),
    u: z.number().min(0).max(1e6).exactOptional(),
  })
  .readonly();

/** One injection of a mixture that was made up by weighing. */
const calibrationSchema = z
  .strictObject({
    analyte_mg: mass_mg,
    standard_mg: mass_mg,
    analyteArea: z.number().positive().max(1e15),
    standardArea: z.number().positive().max(1e15),
  })
  .readonly();

const internalStandardSchema = z
  .strictObject({
    name,
    /** Weighed into the sample. */
    standard_mg: mass_mg,
    sample_mg: mass_mg,
    /** Of each weighing (standard uncertainty). */
    massU_mg: z.number().min(0).max(1000).exactOptional(),
    analyte: name,
    calibration: z.array(calibrationSchema).min(1).max(20).readonly(),
  })
  .readonly();

/** GC or HPLC as entered: the table of peaks, and what is needed to read it. */
export const chromatogramEnteredSchema = z
  .strictObject({
    technique: z.literal('chromatogram'),
    method: z.enum(['gc', 'hplc']),
    detector: z.enum(DETECTORS),
    wavelength_nm: z.number().min(180).max(1100).exactOptional(),
    column: z.string().max(300).exactOptional(),
    /** Of a substance that is not held back. */
    dead_min: time.exactOptional(),
    /** Nothing is counted before this. */
    from_min: time.exactOptional(),
    peaks: z.array(peakSchema).min(1).max(MOST_PEAKS).readonly(),
    /** Retention times of known substances under the same conditions. */
    standards: z
      .array(z.strictObject({ name, retention_min: time }).readonly())
      .max(50)
      .readonly()
      .exactOptional(),
    /** A peak this far from a standard's time, or less, may be it. */
    window_min: z.number().positive().max(10).exactOptional(),
    /** Relative standard uncertainty of an area between injections. */
    areaU: relative.exactOptional(),
    responses: z.array(responseSchema).max(50).readonly().exactOptional(),
    internalStandard: internalStandardSchema.exactOptional(),
    /** Peaks to be set against each other, by name. */
    pairs: z
      .array(
        z
          .strictObject({
            kind: z.enum(['isomers', 'diastereomers', 'enantiomers']),
            first: name,
            second: name,
          })
          .readonly(),
      )
      .max(10)
      .readonly()
      .exactOptional(),
    note: z.string().max(2000).exactOptional(),
  })
  .readonly();

export type ChromatogramEntered = z.infer<typeof chromatogramEnteredSchema>;
export type ChromatogramPeak = ChromatogramEntered['peaks'][number];
export type InternalStandard = NonNullable<ChromatogramEntered['internalStandard']>;
export type PeakPair = NonNullable<ChromatogramEntered['pairs']>[number];
