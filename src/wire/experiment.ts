import * as z from 'zod';
import { hashSchema, idSchema, instantSchema } from './common.ts';

/** As many characters as the reader takes (LIMITS of core/experiment/read.ts). */
export const documentTextSchema = z.string().max(2_000_000);

export const versionNameSchema = z.string().trim().min(1).max(120);

/** One saved state of an experiment's document. Numbers count up from 1 without gaps. */
export const versionSchema = z.object({
  number: z.int().min(1),
  /** Of the text; what bench records pin. */
  document: hashSchema,
  savedAt: instantSchema,
  savedBy: z.string(),
  /** Given by a person; null where it was saved on the way. */
  name: z.string().nullable(),
});

/** What the shelf shows of an experiment. */
export const experimentSummarySchema = z.object({
  id: idSchema,
  title: z.string(),
  /** The header line "Course", where there is one. */
  course: z.string().nullable(),
  head: versionSchema,
  runs: z.int().min(0),
  putAway: z.boolean(),
});

/** An experiment opened: its newest version with its text. */
export const experimentSchema = experimentSummarySchema.extend({ text: documentTextSchema });

export const newExperimentSchema = z.strictObject({ id: idSchema, text: documentTextSchema });

/**
 * A save. `base` is the version that was being edited; where the newest is another one, the save is
 * refused with code "version-moved" and nothing is overwritten. The same text as the newest is no
 * new version.
 */
export const newVersionSchema = z.strictObject({
  text: documentTextSchema,
  base: z.int().min(1),
  name: versionNameSchema.exactOptional(),
});

export const experimentChangeSchema = z.strictObject({ putAway: z.boolean() });
export const versionChangeSchema = z.strictObject({ name: versionNameSchema.nullable() });

/** What a document makes, how much and what limits, a sentence each. */
export const documentAnswerSchema = z.object({ matter: z.array(z.string()) });

export type Version = z.infer<typeof versionSchema>;
export type ExperimentSummary = z.infer<typeof experimentSummarySchema>;
export type ExperimentOpened = z.infer<typeof experimentSchema>;
export type NewExperiment = z.infer<typeof newExperimentSchema>;
export type DocumentAnswer = z.infer<typeof documentAnswerSchema>;
export type NewVersion = z.infer<typeof newVersionSchema>;
