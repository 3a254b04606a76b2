import * as z from 'zod';
import { benchEntrySchema } from '../core/record/schema.ts';
import { hashSchema, idSchema, instantSchema } from './common.ts';

/** One bench working through one version of an experiment. */
export const runSchema = z.object({
  id: idSchema,
  experiment: idSchema,
  /** The version that the bench works from, pinned when the run began. */
  document: hashSchema,
  versionNumber: z.int().min(1),
  title: z.string(),
  /** "Bench 4": who or where, in the words of the laboratory. */
  bench: z.string(),
  startedAt: instantSchema,
  entries: z.int().min(0),
});

export const newRunSchema = z.strictObject({
  id: idSchema,
  experiment: idSchema,
  document: hashSchema,
  bench: z.string().trim().min(1).max(80),
});

/** An entry as it was kept. `seq` counts over the whole store and only ever grows. */
export const keptEntrySchema = z.object({
  seq: z.int().min(1),
  receivedAt: instantSchema,
  entry: benchEntrySchema,
});

export const runOpenedSchema = runSchema.extend({
  text: z.string(),
  kept: z.array(keptEntrySchema),
});

export const MOST_ENTRIES_AT_ONCE = 200;

export const newEntriesSchema = z.strictObject({
  entries: z.array(benchEntrySchema).min(1).max(MOST_ENTRIES_AT_ONCE),
});

/** Sent only when the entries are on the disk. An entry that was there already is acknowledged too. */
export const acknowledgedSchema = z.object({
  acknowledged: z.array(z.object({ id: z.string(), seq: z.int().min(1) })),
});

export type Run = z.infer<typeof runSchema>;
export type NewRun = z.infer<typeof newRunSchema>;
export type RunOpened = z.infer<typeof runOpenedSchema>;
export type KeptEntry = z.infer<typeof keptEntrySchema>;
export type Acknowledged = z.infer<typeof acknowledgedSchema>;
