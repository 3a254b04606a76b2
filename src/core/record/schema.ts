import * as z from 'zod';
import { evidenceEnteredSchema } from '../evidence/schema.ts';

/** What an entry records. `correction` takes the kind of the entry that it corrects. */
export const ENTRY_KINDS = [
  'charge',
  'tare',
  'gross',
  'net',
  'time',
  'temperature',
  'observation',
  'lot',
  'meltingRange',
  'evidence',
  'correction',
] as const;

const short = z.string().max(200);
const id = short.min(1);
const finite = z.number().finite();
/** SHA-256 of the bytes, in lower-case hexadecimal. */
const hash = z.string().regex(/^[0-9a-f]{64}$/);

export const MOST_ATTACHMENTS = 8;

/**
 * One line of a bench record as it comes from outside. Strict: a field that is not known is
 * refused with the entry, because to drop it would lose what someone wrote.
 */
export const benchEntrySchema = z
  .strictObject({
    id,
    at: z.union([z.iso.datetime({ offset: true, local: true }), z.iso.date()]),
    by: short,
    document: short.exactOptional(),
    bench: short.exactOptional(),
    kind: z.enum(ENTRY_KINDS),
    step: short.exactOptional(),
    use: short.exactOptional(),
    item: short.exactOptional(),
    vessel: short.exactOptional(),
    value: finite.exactOptional(),
    high: finite.exactOptional(),
    decimals: z.int().min(0).max(12).exactOptional(),
    unit: z.string().max(40).exactOptional(),
    instrument: short.exactOptional(),
    n: z.int().min(1).max(99).exactOptional(),
    corrects: id.exactOptional(),
    text: z.string().max(10_000).exactOptional(),
    evidence: evidenceEnteredSchema.exactOptional(),
    attachments: z.array(hash).min(1).max(MOST_ATTACHMENTS).readonly().exactOptional(),
  })
  .readonly();
