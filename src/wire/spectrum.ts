import * as z from 'zod';
import { SAMPLE_STATES } from '../core/evidence/spectrum/infrared.ts';
import { hashSchema, idSchema, instantSchema } from './common.ts';

export const spectrumNameSchema = z.string().min(1).max(200);

/** How the sample lay in the beam; null where nobody says. */
const stateSchema = z.enum(SAMPLE_STATES).nullable();

/** As the server takes it: a SMILES, or a name that the table of substances knows. */
const structureSchema = z.string().min(1).max(500).nullable();

/** A reference spectrum of the laboratory's own library. */
export const spectrumSchema = z.object({
  id: idSchema,
  name: z.string(),
  smiles: z.string().nullable(),
  state: stateSchema,
  /** The attachment with the file that the instrument wrote. */
  file: hashSchema,
  addedAt: instantSchema,
  addedBy: z.string(),
  putAway: z.boolean(),
});

export const newSpectrumSchema = z.strictObject({
  id: idSchema,
  name: spectrumNameSchema,
  structure: structureSchema,
  state: stateSchema,
  file: hashSchema,
});

export const spectrumChangeSchema = z.strictObject({
  name: spectrumNameSchema.exactOptional(),
  structure: structureSchema.exactOptional(),
  state: stateSchema.exactOptional(),
  putAway: z.boolean().exactOptional(),
});

/** What is this file most like; or which spectra have bands at all of these places. */
export const spectrumSearchSchema = z.union([
  z.strictObject({ file: hashSchema, state: stateSchema }),
  z.strictObject({
    bands_percm: z.array(z.number().min(400).max(4000)).min(1).max(12),
    tolerance_percm: z.number().min(0).max(50),
  }),
]);

const alikeSchema = z.object({
  id: idSchema,
  /** 0 to 1. */
  similarity: z.number(),
  /** The stretch that was compared. */
  from_percm: z.number(),
  to_percm: z.number(),
});

const bandsSchema = z.object({
  id: idSchema,
  /** In the order of the question: where asked, where found, how prominent beside the most prominent. */
  bands: z.array(
    z.object({ asked_percm: z.number(), position_percm: z.number(), share: z.number() }),
  ),
});

/** The best first. What is put away is not searched. */
export const spectrumHitsSchema = z.object({
  alike: z.array(alikeSchema),
  byBands: z.array(bandsSchema),
  /** How many were searched. */
  searched: z.int().min(0),
});

export type Spectrum = z.infer<typeof spectrumSchema>;
export type NewSpectrum = z.infer<typeof newSpectrumSchema>;
export type SpectrumChange = z.infer<typeof spectrumChangeSchema>;
export type SpectrumSearch = z.infer<typeof spectrumSearchSchema>;
export type SpectrumHits = z.infer<typeof spectrumHitsSchema>;
