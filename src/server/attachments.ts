import * as z from 'zod';
import type { Store } from '../store/store.ts';
import { hashSchema } from '../wire/common.ts';
import type { App, ServerContext } from './app.ts';
import { signedInAs } from './guard.ts';
import type { SignedIn } from './guard.ts';
import { BODY_bytes } from './limits.ts';
import { answers, CLASHES, found, kept, MISSING, NO_ROOM, refused } from './refused.ts';
import { SANDBOXED } from './security.ts';

const tags = ['attachments'];
const params = z.object({ hash: hashSchema });

/** Shown where they are; SVG is not among them, for it is a document that can run. */
const PICTURES: ReadonlySet<string> = new Set([
  'image/png',
  'image/jpeg',
  'image/webp',
  'image/gif',
  'image/heic',
]);
const OTHER = 'application/octet-stream';

/** The media type without its parameters; whatever is no picture of the list is plain bytes. */
export function mediaTypeOf(header: string | undefined): string {
  const type = (header ?? '').split(';')[0]!.trim().toLowerCase();
  return PICTURES.has(type) ? type : OTHER;
}

/** A bench sees what its own record names, and the reference spectra. */
export async function mayRead(hash: string, { session }: SignedIn, store: Store): Promise<boolean> {
  if (session.role === 'instructor') return true;
  const entries = session.run === null ? [] : await store.entries(session.run);
  const isOwn = entries.some(({ entry }) => entry.attachments?.includes(hash) ?? false);
  return isOwn || store.isSpectrumFile(hash);
}

export async function attachmentRoutes(app: App, context: ServerContext): Promise<void> {
  readingRoute(app, context);
  // In a scope of its own: here alone a body of any media type is taken, as the bytes that it is.
  await app.register((scope: App, _options, done) => {
    scope.removeAllContentTypeParsers();
    scope.addContentTypeParser('*', { parseAs: 'buffer' }, (_request, body, parsed) =>
      parsed(null, body),
    );
    sendingRoute(scope, context);
    done();
  });
}

function sendingRoute(app: App, { store }: ServerContext): void {
  app.put(
    '/api/attachments/:hash',
    {
      bodyLimit: BODY_bytes.attachment,
      config: { access: 'signed-in' },
      schema: {
        tags,
        params,
        consumes: ['application/octet-stream', ...PICTURES],
        body: z.any().meta({ type: 'string', format: 'binary' }),
        response: answers({
          201: z.object({ hash: hashSchema }),
          ...CLASHES,
          ...NO_ROOM,
        }),
      },
    },
    async ({ params: { hash }, body, headers }, reply) => {
      if (!Buffer.isBuffer(body) || body.length === 0)
        throw refused(400, 'empty', 'The file is empty.', 'Send its bytes as the body.');
      const mediaType = mediaTypeOf(headers['content-type']);
      return reply
        .code(201)
        .send(kept(await store.addAttachment({ hash, mediaType, bytes: body })));
    },
  );
}

function readingRoute(app: App, { store }: ServerContext): void {
  app.get(
    '/api/attachments/:hash',
    {
      config: { access: 'signed-in' },
      schema: {
        tags,
        params,
        response: answers({
          200: {
            description: 'The bytes. What is no picture is offered for saving.',
            content: { [OTHER]: { schema: z.any() }, 'image/*': { schema: z.any() } },
          },
          ...MISSING,
        }),
      },
    },
    async (request, reply) => {
      const { hash } = request.params;
      const mine = await mayRead(hash, signedInAs(request), store);
      const file = found(mine ? await store.attachment(hash) : undefined, 'attachment');
      const type = mediaTypeOf(file.mediaType);
      if (type === OTHER)
        void reply.header('content-disposition', `attachment; filename="${hash}"`);
      return reply
        .type(type)
        .header('content-security-policy', SANDBOXED)
        .header('cache-control', 'private, max-age=31536000, immutable')
        .send(Buffer.from(file.bytes));
    },
  );
}
