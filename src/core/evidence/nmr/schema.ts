import * as z from 'zod';
import { NMR_SOLVENTS } from './solvents.ts';

const short = z.string().min(1).max(200);
const shift = z.number().min(-10).max(30);
const positive = z.number().positive().max(1e9);

/** What a signal belongs to. `isomer` is one of several forms of the product, named in `of`. */
export const SIGNAL_OWNERS = [
  'product',
  'isomer',
  'startingMaterial',
  'solvent',
  'standard',
  'impurity',
] as const;

export const nmrAssignmentSchema = z.strictObject({
  to: z.enum(SIGNAL_OWNERS),
  /** Which isomer, residual solvent or impurity. */
  of: short.exactOptional(),
  /** How many hydrogens of one molecule the signal stands for. */
  hydrogens: z.int().min(1).max(200).exactOptional(),
});

export const nmrSignalSchema = z.strictObject({
  /** The middle, or one end of a range. */
  shift_ppm: shift,
  /** The other end of a range, in either order. */
  to_ppm: shift.exactOptional(),
  /** Area, to any scale that is the same for the whole spectrum. */
  integral: z.number().min(0).max(1e12).exactOptional(),
  /** "s", "d", "t", "q", "quint", "sext", "sept", "m", "dd", "br s". */
  multiplicity: z.string().max(24).exactOptional(),
  J_Hz: z.array(z.number().min(0).max(400)).max(8).readonly().exactOptional(),
  assignment: nmrAssignmentSchema.exactOptional(),
});

/** A weighed substance in the same tube, to measure amounts against. */
export const nmrStandardSchema = z.strictObject({
  substance: short,
  smiles: z.string().min(1).max(2000).exactOptional(),
  mass_mg: positive,
  /** Standard uncertainty of that weighing. */
  massU_mg: z.number().min(0).max(1e6).exactOptional(),
  purity_percent: z.number().positive().max(100),
  purityU_percent: z.number().min(0).max(100).exactOptional(),
  hydrogens: z.int().min(1).max(200),
  shift_ppm: shift,
});

/** A 1H spectrum as it is written down: the signals, the tube, and what was weighed into it. */
export const nmrEnteredSchema = z.strictObject({
  technique: z.literal('nmr'),
  solvent: z.enum(NMR_SOLVENTS),
  frequency_MHz: z.number().min(20).max(1500).exactOptional(),
  signals: z.array(nmrSignalSchema).max(200).readonly(),
  /** Relative standard uncertainty of an integral. */
  integralU_percent: z.number().positive().max(50).exactOptional(),
  standard: nmrStandardSchema.exactOptional(),
  sampleMass_mg: positive.exactOptional(),
  sampleMassU_mg: z.number().min(0).max(1e6).exactOptional(),
  file: short.exactOptional(),
});

export type NmrAssignment = z.infer<typeof nmrAssignmentSchema>;
export type NmrSignal = z.infer<typeof nmrSignalSchema>;
export type NmrStandard = z.infer<typeof nmrStandardSchema>;
export type NmrEntered = z.infer<typeof nmrEnteredSchema>;
