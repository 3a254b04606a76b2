import * as z from 'zod';
import { infraredEnteredSchema } from './spectrum/schema.ts';

/** A measurement of identity or purity as someone wrote it down, whatever the technique. */
export const evidenceEnteredSchema = z.discriminatedUnion('technique', [infraredEnteredSchema]);

export type EvidenceEntered = z.infer<typeof evidenceEnteredSchema>;
