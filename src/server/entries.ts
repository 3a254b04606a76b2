import * as z from 'zod';
import { idSchema } from '../wire/common.ts';
import { acknowledgedSchema, keptEntrySchema, newEntriesSchema } from '../wire/run.ts';
import type { App, ServerContext } from './app.ts';
import { signedInAs } from './guard.ts';
import { BODY_bytes, RATE } from './limits.ts';
import { answers, CLASHES, found, kept, MISSING, NO_ROOM } from './refused.ts';

const tags = ['runs'];
const params = z.object({ id: idSchema });

/** A place in the order of what was kept; 0 is before the first. */
export const seqSchema = z.string().regex(/^\d{1,15}$/);

export function entryRoutes(app: App, { store }: ServerContext): void {
  app.get(
    '/api/runs/:id/entries',
    {
      config: { access: 'own-run' },
      schema: {
        tags,
        params,
        querystring: z.object({ after: seqSchema.optional() }),
        response: answers({ 200: z.array(keptEntrySchema), ...MISSING }),
      },
    },
    async ({ params: { id }, query: { after } }) => {
      found(await store.run(id), 'bench record');
      return store.entries(id, Number(after ?? 0));
    },
  );

  app.post(
    '/api/runs/:id/entries',
    {
      bodyLimit: BODY_bytes.entries,
      config: { access: 'own-run', rateLimit: { max: RATE.entries } },
      schema: {
        tags,
        params,
        body: newEntriesSchema,
        response: answers({ 201: acknowledgedSchema, ...MISSING, ...CLASHES, ...NO_ROOM }),
      },
    },
    async (request, reply) => {
      const by = signedInAs(request).session.person.name;
      const { id } = request.params;
      const answer = await store.addEntries(id, request.body.entries, by);
      return reply.code(201).send(kept(answer));
    },
  );
}
