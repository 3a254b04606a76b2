import * as z from 'zod';

const index = z.number().min(-1000).max(1000);
const temperature = z.number().min(-1000).max(10_000);

/** A refractive index at the sodium D line as someone wrote it down. */
export const refractionEnteredSchema = z.strictObject({
  technique: z.literal('refractiveIndex'),
  index,
  T_C: temperature,
  /** The instrument shows what it would be at 20 °C, by its own correction. */
  compensated: z.boolean().exactOptional(),
  /** Half-width of the instrument's greatest error. */
  tolerance: z.number().min(0).max(1).exactOptional(),
  /** Fall of the index with temperature, 1/°C, where it is known for this liquid. */
  fall_perC: z.number().min(0).max(0.01).exactOptional(),
  /** What the instrument showed for pure water, which checks it. */
  water: z.strictObject({ index, T_C: temperature }).exactOptional(),
});

export type RefractionEntered = z.infer<typeof refractionEnteredSchema>;
