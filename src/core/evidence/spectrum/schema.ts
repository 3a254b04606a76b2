import * as z from 'zod';
import { SAMPLE_STATES } from './infrared.ts';

const short = z.string().min(1).max(200);

/** One line of a student's table of assignments: where, how it looks, what it is taken for. */
export const bandClaimSchema = z.strictObject({
  position_percm: z.number().min(1).max(20_000),
  /** Upper end, where a range was written. */
  high_percm: z.number().min(1).max(20_000).exactOptional(),
  shape: z.string().max(60).exactOptional(),
  /** In the person's own words: "O–H stretch, alcohol". */
  group: short,
});

/** What is written down beside an infrared file; the file itself is the entry's attachment. */
export const infraredEnteredSchema = z.strictObject({
  technique: z.literal('infrared'),
  /** What was in the beam. A reference is a known sample of the product. */
  of: z.enum(['product', 'startingMaterial', 'reference', 'polystyrene', 'other']),
  /** Which substance, where the role does not say it. */
  substance: short.exactOptional(),
  /** The name that the file had. */
  file: short.exactOptional(),
  state: z.enum(SAMPLE_STATES).exactOptional(),
  claims: z.array(bandClaimSchema).max(60).readonly().exactOptional(),
  /** What the person concludes from the claims. */
  conclusion: z.string().max(2000).exactOptional(),
});

export type BandClaim = z.infer<typeof bandClaimSchema>;
export type InfraredEntered = z.infer<typeof infraredEnteredSchema>;
