import * as z from 'zod';
import { idSchema } from '../wire/common.ts';
import { newRunSchema, runOpenedSchema, runSchema } from '../wire/run.ts';
import type { App, ServerContext } from './app.ts';
import { BODY_bytes } from './limits.ts';
import { answers, CLASHES, found, kept, MISSING, NO_ROOM } from './refused.ts';
import { sheetReader, sheetSchema } from './sheet.ts';

const tags = ['runs'];
const params = z.object({ id: idSchema });

export function runRoutes(app: App, { store }: ServerContext): void {
  const readSheet = sheetReader();

  app.get(
    '/api/runs',
    {
      schema: {
        tags,
        querystring: z.object({ experiment: idSchema.optional() }),
        response: answers({ 200: z.array(runSchema) }),
      },
    },
    ({ query: { experiment } }) => store.runs(experiment),
  );

  app.post(
    '/api/runs',
    {
      bodyLimit: BODY_bytes.usual,
      schema: {
        tags,
        body: newRunSchema,
        response: answers({ 201: runSchema, ...MISSING, ...CLASHES, ...NO_ROOM }),
      },
    },
    async ({ body }, reply) => reply.code(201).send(kept(await store.addRun(body))),
  );

  app.get(
    '/api/runs/:id',
    {
      config: { access: 'own-run' },
      schema: { tags, params, response: answers({ 200: runOpenedSchema, ...MISSING }) },
    },
    async ({ params: { id } }) => {
      const run = found(await store.run(id), 'bench record');
      const text = found(await store.documentText(run.document), 'document');
      return { ...run, text, kept: await store.entries(id) };
    },
  );

  app.get(
    '/api/runs/:id/sheet',
    {
      config: { access: 'own-run' },
      schema: { tags, params, response: answers({ 200: sheetSchema, ...MISSING }) },
    },
    async ({ params: { id } }, reply) => {
      const { document } = found(await store.run(id), 'bench record');
      const text = found(await store.documentText(document), 'document');
      // It never changes for a run, but a newer Weighboat may say more in it.
      void reply.header('cache-control', 'private, max-age=600');
      return readSheet(document, text);
    },
  );
}
