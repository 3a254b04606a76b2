import * as z from 'zod';
import { idSchema } from '../wire/common.ts';
import { newVersionSchema, versionChangeSchema, versionSchema } from '../wire/experiment.ts';
import type { App, ServerContext } from './app.ts';
import { signedInAs } from './guard.ts';
import { BODY_bytes } from './limits.ts';
import { answers, CLASHES, found, kept, MISSING, NO_ROOM } from './refused.ts';

const tags = ['versions'];
const withTextSchema = versionSchema.extend({ text: z.string() });
const params = z.object({ id: idSchema });
const oneParams = z.object({ id: idSchema, number: z.string().regex(/^[1-9]\d{0,8}$/) });

export function versionRoutes(app: App, { store }: ServerContext): void {
  const oneOf = async ({ id, number }: z.infer<typeof oneParams>) =>
    found(await store.version(id, Number(number)), 'version');

  app.get(
    '/api/experiments/:id/versions',
    { schema: { tags, params, response: answers({ 200: z.array(versionSchema), ...MISSING }) } },
    async ({ params: { id } }) => {
      const versions = await store.versions(id);
      // Every experiment has a version, so that none means that there is no such experiment.
      return found(versions.length > 0 ? versions : undefined, 'experiment');
    },
  );

  app.post(
    '/api/experiments/:id/versions',
    {
      bodyLimit: BODY_bytes.document,
      schema: {
        tags,
        params,
        body: newVersionSchema,
        response: answers({ 201: versionSchema, ...MISSING, ...CLASHES, ...NO_ROOM }),
      },
    },
    async (request, reply) => {
      const { id } = request.params;
      const by = signedInAs(request).session.person.name;
      return reply.code(201).send(kept(await store.addVersion(id, request.body, by)));
    },
  );

  app.get(
    '/api/experiments/:id/versions/:number',
    {
      schema: {
        tags,
        params: oneParams,
        response: answers({ 200: withTextSchema, ...MISSING }),
      },
    },
    (request) => oneOf(request.params),
  );

  app.patch(
    '/api/experiments/:id/versions/:number',
    {
      bodyLimit: BODY_bytes.usual,
      schema: {
        tags,
        params: oneParams,
        body: versionChangeSchema,
        response: answers({ 200: versionSchema, ...MISSING, ...NO_ROOM }),
      },
    },
    async (request) => {
      const { id, number } = request.params;
      await store.nameVersion(id, Number(number), request.body.name);
      return oneOf(request.params);
    },
  );
}
