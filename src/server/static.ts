import { randomBytes } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { join, sep } from 'node:path';
import fastifyStatic from '@fastify/static';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { App } from './app.ts';
import { noRoute } from './faults.ts';
import { isInterface } from './guard.ts';
import { NONCE_MARK } from './nonce.ts';
import { pagePolicy } from './security.ts';

const FOREVER = 'public, max-age=31536000, immutable';
/** Files whose names hold a hash of what is in them. */
const HASHED = `${sep}assets${sep}`;

/** Which page an address without a file belongs to: the pages find their way by themselves. */
const pageOf = (path: string): string =>
  path === '/bench' || path.startsWith('/bench/') ? 'bench.html' : 'index.html';

/** An address whose last part has a dot asks for a file, and no page stands in for that. */
const isPage = ({ method, url }: FastifyRequest): boolean =>
  (method === 'GET' || method === 'HEAD') &&
  !isInterface(url) &&
  !/\.[^/]*$/.test(url.replace(/\?.*$/s, ''));

async function sendPage(folder: string, url: string, reply: FastifyReply) {
  const nonce = randomBytes(16).toString('base64');
  const page = await readFile(join(folder, pageOf(url.replace(/\?.*$/s, ''))), 'utf8');
  return reply
    .type('text/html; charset=utf-8')
    .header('cache-control', 'no-cache')
    .header('content-security-policy', pagePolicy(nonce))
    .send(page.replaceAll(NONCE_MARK, nonce));
}

/** The built pages and their files; without a folder only refusals of what is no route. */
export async function pages(app: App, folder: string | null): Promise<void> {
  if (folder !== null) {
    // Asked for a folder, the plugin answers that it lists none.
    app.get('/', { schema: { hide: true } }, ({ url }, reply) => sendPage(folder, url, reply));
    await app.register(fastifyStatic, {
      root: folder,
      // The pages themselves are sent by the handler below, each with its nonce.
      index: false,
      allowedPath: (path) => !path.endsWith('.html'),
      cacheControl: false,
      preCompressed: true,
      setHeaders: (reply, path) => {
        void reply.header('cache-control', path.includes(HASHED) ? FOREVER : 'no-cache');
      },
    });
  }
  app.setNotFoundHandler(async (request, reply) => {
    if (folder !== null && isPage(request)) return sendPage(folder, request.url, reply);
    throw noRoute(request.url);
  });
}
