import * as z from 'zod';

/** Made by whoever makes the thing, so that a repeated request makes it once. */
export const idSchema = z.string().regex(/^[\w-]{8,64}$/);

/** SHA-256 in lower-case hexadecimal. */
export const hashSchema = z.string().regex(/^[0-9a-f]{64}$/);

/** ISO 8601 in UTC, to the millisecond. */
export const instantSchema = z.iso.datetime();

/** What every refusal looks like: what is wrong, and what to do about it. */
export const refusalSchema = z.object({
  code: z.string(),
  message: z.string(),
  hint: z.string().optional(),
});

export type Refusal = z.infer<typeof refusalSchema>;
