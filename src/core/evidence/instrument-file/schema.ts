import * as z from 'zod';

export const FILE_KINDS = ['nmr', 'mass', 'chromatogram', 'other'] as const;

/**
 * A file that an instrument wrote, kept before anyone has worked it up: the entry's attachment.
 * It is settled by an entry of its technique that names the same attachment.
 */
export const instrumentFileEnteredSchema = z.strictObject({
  technique: z.literal('file'),
  kind: z.enum(FILE_KINDS),
  of: z.enum(['product', 'startingMaterial', 'reference', 'other']),
  file: z.string().min(1).max(200),
});

export type InstrumentFileEntered = z.infer<typeof instrumentFileEnteredSchema>;
