import * as z from 'zod';
import { boilingEnteredSchema } from './boiling/schema.ts';
import { chemicalTestEnteredSchema } from './chemical-test/schema.ts';
import { chromatogramEnteredSchema } from './chromatogram/schema.ts';
import { densityEnteredSchema } from './density/schema.ts';
import { instrumentFileEnteredSchema } from './instrument-file/schema.ts';
import { massEnteredSchema } from './mass/schema.ts';
import { meltingEnteredSchema } from './melting/schema.ts';
import { nmrEnteredSchema } from './nmr/schema.ts';
import { refractionEnteredSchema } from './refraction/schema.ts';
import { rotationEnteredSchema } from './rotation/schema.ts';
import { infraredEnteredSchema } from './spectrum/schema.ts';
import { thinLayerEnteredSchema } from './thin-layer/schema.ts';
import { titrationEnteredSchema } from './titration/schema.ts';

/** A measurement of identity or purity as someone wrote it down, whatever the technique. */
export const evidenceEnteredSchema = z.discriminatedUnion('technique', [
  infraredEnteredSchema,
  instrumentFileEnteredSchema,
  meltingEnteredSchema,
  boilingEnteredSchema,
  refractionEnteredSchema,
  densityEnteredSchema,
  rotationEnteredSchema,
  thinLayerEnteredSchema,
  chromatogramEnteredSchema,
  titrationEnteredSchema,
  chemicalTestEnteredSchema,
  nmrEnteredSchema,
  massEnteredSchema,
]);

export type EvidenceEntered = z.infer<typeof evidenceEnteredSchema>;
