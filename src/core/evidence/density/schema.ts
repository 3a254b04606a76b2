import * as z from 'zod';

const mass = z.number().min(-1e6).max(1e6);
const temperature = z.number().min(-1000).max(10_000);

/** A density as someone wrote it down: by three weighings, or as an instrument showed it. */
export const densityEnteredSchema = z.strictObject({
  technique: z.literal('density'),
  /** Of the sample. */
  T_C: temperature,
  by: z.discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('pycnometer'),
      empty_g: mass,
      withWater_g: mass,
      withSample_g: mass,
      /** Of the water, where it was not that of the sample. */
      waterT_C: temperature.exactOptional(),
      /** The smallest step of the balance. */
      readability_g: z.number().min(0).max(100).exactOptional(),
      /** False leaves the air that the liquids push away out of account. */
      buoyancy: z.boolean().exactOptional(),
    }),
    z.strictObject({
      kind: z.literal('shown'),
      density_g_mL: z.number().min(-1000).max(100_000),
      /** Half-width of the greatest error. */
      tolerance_g_mL: z.number().min(0).max(100).exactOptional(),
    }),
  ]),
  /** Fall of the density with temperature, g/mL per °C, where it is known for this liquid. */
  fall_g_mL_perC: z.number().min(0).max(0.1).exactOptional(),
});

export type DensityEntered = z.infer<typeof densityEnteredSchema>;
export type Pycnometer = Extract<DensityEntered['by'], { kind: 'pycnometer' }>;
