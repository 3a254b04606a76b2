import * as z from 'zod';

const short = z.string().min(1).max(200);
const number = z.number().min(-1e6).max(1e6);
const temperature = z.number().min(-1000).max(10_000);

/** An optical rotation as someone wrote it down. */
export const rotationEnteredSchema = z.strictObject({
  technique: z.literal('rotation'),
  /** As the instrument showed it, + clockwise. */
  observed_deg: number,
  /** The same tube with the solvent alone. */
  blank_deg: number.exactOptional(),
  length_dm: number,
  sample: z.discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('solution'),
      concentration: number,
      unit: z.enum(['g/100 mL', 'g/mL']),
      solvent: short.exactOptional(),
    }),
    z.strictObject({ kind: z.literal('neat'), density_g_mL: number }),
  ]),
  T_C: temperature,
  /** 589 nm, the sodium D line, where nothing is written. */
  wavelength_nm: z.number().min(0).max(100_000).exactOptional(),
  /** Half-width of the greatest error of a reading. */
  tolerance_deg: z.number().min(0).max(100).exactOptional(),
  /** What the literature value was measured in, where it is known. */
  literature: z
    .strictObject({
      solvent: short.exactOptional(),
      concentration_g_100mL: number.exactOptional(),
      T_C: temperature.exactOptional(),
    })
    .exactOptional(),
});

export type RotationEntered = z.infer<typeof rotationEnteredSchema>;
