import { Readable } from 'node:stream';
import * as z from 'zod';
import { exportAll } from '../store/transfer/export.ts';
import { importAll } from '../store/transfer/import.ts';
import { instantAfter } from './app.ts';
import type { App, ServerContext } from './app.ts';
import { BODY_bytes } from './limits.ts';
import { answers, CLASHES, kept, NO_ROOM, refused, UNREADABLE } from './refused.ts';

const tags = ['transfer'];
const ZIP = 'application/zip';

const importedSchema = z.object({
  experiments: z.int(),
  runs: z.int(),
  entries: z.int(),
  attachments: z.int(),
});

/** The rest of a generator after its first part, which is asked for by itself. */
async function* from<T>(first: T, rest: AsyncGenerator<T>): AsyncGenerator<T> {
  yield first;
  yield* rest;
}

export async function transferRoutes(app: App, context: ServerContext): Promise<void> {
  exportRoute(app, context);
  await app.register((scope: App, _options, done) => {
    scope.removeAllContentTypeParsers();
    scope.addContentTypeParser(ZIP, { parseAs: 'buffer' }, (_request, body, parsed) =>
      parsed(null, body),
    );
    importRoute(scope, context);
    done();
  });
}

function exportRoute(app: App, context: ServerContext): void {
  app.get(
    '/api/export',
    {
      exposeHeadRoute: false,
      schema: {
        tags,
        response: answers({
          200: {
            description: 'Everything, as open files.',
            content: { [ZIP]: { schema: z.any() } },
          },
          ...CLASHES,
        }),
      },
    },
    async (_request, reply) => {
      const parts = exportAll(context.store);
      // A refusal comes before the first part; after that only the line can break.
      const first = await parts.next();
      const bytes = first.done === true ? [] : from(first.value, parts);
      const day = instantAfter(context).slice(0, 10);
      return reply
        .type(ZIP)
        .header('content-disposition', `attachment; filename="weighboat-${day}.zip"`)
        .header('cache-control', 'no-store')
        .send(Readable.from(bytes));
    },
  );
}

function importRoute(app: App, { store }: ServerContext): void {
  let busy = false;
  app.post(
    '/api/import',
    {
      bodyLimit: BODY_bytes.import,
      schema: {
        tags,
        consumes: [ZIP],
        body: z.any().meta({ type: 'string', format: 'binary' }),
        response: answers({ 200: importedSchema, ...CLASHES, ...NO_ROOM, ...UNREADABLE }),
      },
      // Before its body is read: nobody fills the memory with what would be refused anyway.
      preParsing: async (_request, reply) => {
        if (busy)
          throw refused(409, 'import-under-way', 'An import is under way.', 'Wait until it ends.');
        busy = true;
        reply.raw.once('close', () => void (busy = false));
        if (!(await store.isEmpty()))
          throw refused(
            409,
            'store-not-empty',
            'There are experiments here, and an import goes only into an empty store.',
            'Start Weighboat in an empty folder: weighboat serve --folder NEW --empty',
          );
      },
    },
    async ({ body }) => {
      if (!Buffer.isBuffer(body) || body.length === 0)
        throw refused(400, 'empty', 'The file is empty.', 'Send the zip as the body.');
      return kept(await importAll(store, body));
    },
  );
}
