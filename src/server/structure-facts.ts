import * as z from 'zod';
import { setImmediate as nextTurn } from 'node:timers/promises';
import type { StructureKit } from '../structures/port.ts';
import { structureFacts } from '../structures/facts.ts';
import type { App, ServerContext } from './app.ts';
import { BODY_bytes, LONGEST_SMILES, RATE } from './limits.ts';
import { answers } from './refused.ts';

const MOST_STRUCTURES = 40;

/** px, from the upper left corner; the atoms in the order of the SMILES. */
const placesSchema = z.object({
  width: z.number(),
  height: z.number(),
  atoms: z.array(z.object({ x: z.number(), y: z.number() })),
});

const factsSchema = z.union([
  z.object({
    smiles: z.string(),
    matches: z.record(z.string(), z.array(z.array(z.int().min(0)))),
    /** Where the atoms stand in the drawing of `/api/drawings`. */
    places: placesSchema.optional(),
  }),
  z.object({ smiles: z.string(), message: z.string() }),
]);

/** Which groups structures hold: what a judge of spectra has to know of them. */
export function structureFactsRoutes(app: App, { structures }: ServerContext): void {
  app.post(
    '/api/structures/facts',
    {
      bodyLimit: BODY_bytes.usual,
      config: { access: 'signed-in', rateLimit: { max: RATE.structures } },
      schema: {
        tags: ['structures'],
        body: z.strictObject({
          smiles: z.array(z.string().min(1).max(LONGEST_SMILES)).min(1).max(MOST_STRUCTURES),
        }),
        response: answers({ 200: z.array(factsSchema) }),
      },
    },
    async ({ body }) => {
      const kit = await structures();
      const answered: z.infer<typeof factsSchema>[] = [];
      for (const smiles of body.smiles) {
        // A long chain takes a third of a second: whoever else asks is answered in between
        await nextTurn();
        answered.push(factsOf(kit, smiles));
      }
      return answered;
    },
  );
}

function factsOf(kit: StructureKit, smiles: string): z.infer<typeof factsSchema> {
  const found = structureFacts(kit, smiles);
  if (!found.ok) return { smiles, message: found.message };
  const matches = Object.entries(found.facts.matches);
  const drawn = kit.places(smiles);
  const atoms = drawn.ok ? [...drawn.places.atoms] : [];
  return {
    smiles,
    ...(drawn.ok && { places: { ...drawn.places, atoms } }),
    matches: Object.fromEntries(
      matches.map(([pattern, places]) => [pattern, places.map((atoms) => [...atoms])]),
    ),
  };
}
