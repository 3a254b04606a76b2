import * as z from 'zod';

const short = z.string().min(1).max(200);
/** What is written is taken; whether it can be is for the judge to say. */
const temperature = z.number().min(-1000).max(10_000);

/** A thermometer, and what is known of its errors. */
export const thermometerSchema = z.strictObject({
  kind: z.enum(['digital', 'mercury', 'alcohol']).exactOptional(),
  /** Half-width of its greatest error, where it is known. */
  tolerance_C: z.number().min(0).max(50).exactOptional(),
  /** Standards that were measured in the same apparatus. */
  calibration: z
    .array(
      z.strictObject({
        standard: short.exactOptional(),
        measured_C: temperature,
        true_C: temperature,
      }),
    )
    .min(1)
    .max(20)
    .readonly()
    .exactOptional(),
  /** The part of the thread that stands out of the bath, in degrees of the scale. */
  stem: z
    .strictObject({ emergent_C: z.number().min(0).max(1000), stem_C: temperature })
    .exactOptional(),
});

const range = z.strictObject({ low_C: temperature, high_C: temperature });

/** A melting range as someone wrote it down. */
export const meltingEnteredSchema = z.strictObject({
  technique: z.literal('meltingRange'),
  /** The product alone, mixed with a known substance, or a known sample of the product. */
  sample: z.enum(['product', 'mixed', 'authentic']),
  low_C: temperature,
  high_C: temperature,
  thermometer: thermometerSchema.exactOptional(),
  /** Near the melting point. */
  heatingRate_C_min: z.number().min(0).max(1000).exactOptional(),
  decomposes: z.boolean().exactOptional(),
  sublimes: z.boolean().exactOptional(),
  /** Of a mixed sample: the known substance, and its own range with the same thermometer. */
  mixedWith: z.strictObject({ substance: short, range: range.exactOptional() }).exactOptional(),
  /** Of a mixed sample: the range of the product alone, with the same thermometer. */
  alone: range.exactOptional(),
});

export type Thermometer = z.infer<typeof thermometerSchema>;
export type MeltingEntered = z.infer<typeof meltingEnteredSchema>;
