import * as z from 'zod';

/**
 * `acid` is titrated with base and `base` with acid; `saponification` boils an ester with a known
 * excess of base and titrates what is left (the blank has the excess); `iodometric` ends in iodine
 * titrated with thiosulfate.
 */
export const TITRATION_KINDS = ['acid', 'base', 'saponification', 'iodometric'] as const;

export type TitrationKind = (typeof TITRATION_KINDS)[number];

const name = z.string().min(1).max(200);
const reading_mL = z.number().min(-1).max(1000);
const mass_g = z.number().positive().max(10_000);

/** Both readings of the burette, or their difference. */
const volume = {
  start_mL: reading_mL.exactOptional(),
  end_mL: reading_mL.exactOptional(),
  titre_mL: reading_mL.exactOptional(),
};

const blankSchema = z.strictObject(volume).readonly();

const runSchema = z
  .strictObject({
    ...volume,
    /** In the flask that was titrated; of an aliquot, the mass that it holds. */
    sample_g: mass_g,
    /** A trial, or one that went over: shown, not counted. */
    leftOut: z.boolean().exactOptional(),
  })
  .readonly();

const strengthSchema = z.discriminatedUnion('by', [
  z
    .strictObject({
      by: z.literal('given'),
      concentration_mol_L: z.number().positive().max(20),
      /** Standard uncertainty. */
      u_mol_L: z.number().min(0).max(1).exactOptional(),
    })
    .readonly(),
  z
    .strictObject({
      by: z.literal('standardised'),
      /** The primary standard, by name. */
      standard: name,
      molarMass_g_mol: z.number().positive().max(5000),
      /** Moles of titrant that one mole of the standard takes. */
      equivalents: z.number().positive().max(12),
      /** Mass share of the standard, 1 if not told. */
      purity: z.number().positive().max(1).exactOptional(),
      purityU: z.number().min(0).max(0.5).exactOptional(),
      runs: z
        .array(z.strictObject({ ...volume, standard_g: mass_g }).readonly())
        .min(1)
        .max(20)
        .readonly(),
    })
    .readonly(),
]);

/** A titration as entered. */
export const titrationEnteredSchema = z
  .strictObject({
    technique: z.literal('titration'),
    kind: z.enum(TITRATION_KINDS),
    titrant: name,
    strength: strengthSchema,
    /** What is taken to react; the product if not told. */
    analyte: name.exactOptional(),
    /** Moles of titrant (of base, for a saponification) that one mole of it takes. */
    equivalents: z.number().positive().max(12),
    /** By id or name of data/instruments.csv. */
    burette: name.exactOptional(),
    balance: name.exactOptional(),
    /** The end point is seen to ± this; a drop if not told. */
    endPoint_mL: z.number().min(0).max(5).exactOptional(),
    indicator: z.string().max(200).exactOptional(),
    blanks: z.array(blankSchema).max(20).readonly().exactOptional(),
    runs: z.array(runSchema).min(1).max(50).readonly(),
    note: z.string().max(2000).exactOptional(),
  })
  .readonly();

export type TitrationEntered = z.infer<typeof titrationEnteredSchema>;
export type TitrationStrength = TitrationEntered['strength'];
/** A volume as any line of a titration may give it. */
export type TitrationVolume = z.infer<typeof blankSchema>;
