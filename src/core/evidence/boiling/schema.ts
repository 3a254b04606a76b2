import * as z from 'zod';
import { thermometerSchema } from '../melting/schema.ts';

const temperature = z.number().min(-1000).max(10_000);

/** The units that a barometer or a vacuum gauge is read in. */
export const PRESSURE_UNITS = ['kPa', 'mbar', 'mmHg', 'atm'] as const;

/** A boiling or distilling range as someone wrote it down. */
export const boilingEnteredSchema = z.strictObject({
  technique: z.literal('boilingRange'),
  low_C: temperature,
  high_C: temperature,
  pressure: z
    .strictObject({ value: z.number().min(-1e6).max(1e6), unit: z.enum(PRESSURE_UNITS) })
    .exactOptional(),
  /** Over the head of a still, or the inverted capillary of a few drops. */
  method: z.enum(['distillation', 'microscale']).exactOptional(),
  thermometer: thermometerSchema.exactOptional(),
  /** Held together by hydrogen bonds in the liquid (alcohol, acid, water), where it is not clear. */
  hydrogenBonded: z.boolean().exactOptional(),
});

export type PressureUnit = (typeof PRESSURE_UNITS)[number];
export type BoilingEntered = z.infer<typeof boilingEnteredSchema>;
