import * as z from 'zod';
import { idSchema } from '../wire/common.ts';
import {
  experimentChangeSchema,
  experimentSchema,
  experimentSummarySchema,
  newExperimentSchema,
} from '../wire/experiment.ts';
import type { App, ServerContext } from './app.ts';
import { signedInAs } from './guard.ts';
import { BODY_bytes } from './limits.ts';
import { answers, CLASHES, found, kept, MISSING, NO_ROOM } from './refused.ts';

const tags = ['experiments'];

export function experimentRoutes(app: App, { store }: ServerContext): void {
  app.get(
    '/api/experiments',
    { schema: { tags, response: answers({ 200: z.array(experimentSummarySchema) }) } },
    () => store.experiments(),
  );

  app.post(
    '/api/experiments',
    {
      bodyLimit: BODY_bytes.document,
      schema: {
        tags,
        body: newExperimentSchema,
        response: answers({ 201: experimentSchema, ...CLASHES, ...NO_ROOM }),
      },
    },
    async (request, reply) => {
      const by = signedInAs(request).session.person.name;
      return reply.code(201).send(kept(await store.addExperiment(request.body, by)));
    },
  );

  const params = z.object({ id: idSchema });
  app.get(
    '/api/experiments/:id',
    { schema: { tags, params, response: answers({ 200: experimentSchema, ...MISSING }) } },
    async (request) => found(await store.experiment(request.params.id), 'experiment'),
  );

  app.patch(
    '/api/experiments/:id',
    {
      bodyLimit: BODY_bytes.usual,
      schema: {
        tags,
        params,
        body: experimentChangeSchema,
        response: answers({ 200: experimentSchema, ...MISSING, ...NO_ROOM }),
      },
    },
    async ({ params: { id }, body }) => {
      const done = await store.putAway(id, body.putAway);
      return found(done ? await store.experiment(id) : undefined, 'experiment');
    },
  );
}
