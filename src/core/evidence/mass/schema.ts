import * as z from 'zod';

export const IONISATIONS = ['EI', 'CI', 'ESI+', 'ESI−'] as const;

export const massPeakSchema = z.strictObject({
  mz: z.number().positive().max(100_000),
  /** To any scale that is the same for the whole spectrum. */
  intensity: z.number().min(0).max(1e15),
});

/** A mass spectrum as it is written down: peaks, and how the ions were made. */
export const massEnteredSchema = z.strictObject({
  technique: z.literal('mass'),
  ionisation: z.enum(IONISATIONS),
  peaks: z.array(massPeakSchema).max(5000).readonly(),
  /** Standard uncertainty of m/z of an accurate mass; absent: unit resolution. */
  massU_ppm: z.number().positive().max(1000).exactOptional(),
  /** Relative standard uncertainty of an intensity. */
  intensityU_percent: z.number().positive().max(100).exactOptional(),
  file: z.string().min(1).max(200).exactOptional(),
});

export type Ionisation = (typeof IONISATIONS)[number];
export type MassPeak = z.infer<typeof massPeakSchema>;
export type MassEntered = z.infer<typeof massEnteredSchema>;
