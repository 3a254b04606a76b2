import * as z from 'zod';

const short = z.string().trim().min(1).max(80);

/** A balance of this laboratory: what its certificate or its data sheet says. */
export const balanceSchema = z.strictObject({
  id: short,
  name: short,
  readability_g: z.number().positive().max(10),
  repeatability_g: z.number().min(0).max(10),
  linearity_g: z.number().min(0).max(10),
  capacity_g: z.number().positive().max(100_000),
});

/** A piece of volumetric glassware with its tolerance at its volume. */
export const glasswareSchema = z.strictObject({
  id: short,
  name: short,
  volume_mL: z.number().positive().max(100_000),
  tolerance_mL: z.number().positive().max(10_000),
});

export const settingsSchema = z.strictObject({
  decimalSign: z.enum(['.', ',']),
  /** Spelling and terms of the trade: sulfur is sulfur in both, a separatory funnel is not. */
  terms: z.enum(['us', 'uk']),
  paper: z.enum(['a4', 'letter']),
  balances: z.array(balanceSchema).max(100),
  glassware: z.array(glasswareSchema).max(200),
});

export type Settings = z.infer<typeof settingsSchema>;
export type Balance = z.infer<typeof balanceSchema>;
export type Glassware = z.infer<typeof glasswareSchema>;

export const DEFAULT_SETTINGS: Settings = {
  decimalSign: '.',
  terms: 'uk',
  paper: 'a4',
  balances: [],
  glassware: [],
};
