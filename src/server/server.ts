import cookie from '@fastify/cookie';
import helmet from '@fastify/helmet';
import rateLimit from '@fastify/rate-limit';
import Fastify from 'fastify';
import type { FastifyReply, RouteOptions } from 'fastify';
import { serializerCompiler, validatorCompiler } from 'fastify-type-provider-zod';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import type { Store } from '../store/store.ts';
import type { StructureKit } from '../structures/port.ts';
import type { App, ServedAddress, ServerContext } from './app.ts';
import { attachmentRoutes } from './attachments.ts';
import { documentRoutes } from './documents.ts';
import { drawingRoutes } from './drawings.ts';
import { entryRoutes } from './entries.ts';
import { experimentRoutes } from './experiments.ts';
import { answerFaults, answerTo } from './faults.ts';
import { feedRoutes } from './feed.ts';
import { guard, isOfInterface } from './guard.ts';
import { healthRoutes } from './health.ts';
import { RATE } from './limits.ts';
import { linkRoutes } from './links.ts';
import { describeRoutes, openApiRoute } from './openapi.ts';
import { runRoutes } from './runs.ts';
import { HEADERS } from './security.ts';
import { sessionRoutes } from './session.ts';
import { settingsRoutes } from './settings.ts';
import { spectrumRoutes } from './spectra.ts';
import { structureFactsRoutes } from './structure-facts.ts';
import { pages } from './static.ts';
import { transferRoutes } from './transfer.ts';
import { versionRoutes } from './versions.ts';

export interface ServerOptions {
  readonly store: Store;
  readonly structures: () => Promise<StructureKit>;
  readonly webFolder?: string | null;
  readonly clock?: () => number;
  readonly address?: Partial<ServedAddress>;
  readonly heartbeat_ms?: number;
  readonly onFault?: (error: unknown) => void;
  /** Told of every route as it is registered. */
  readonly onRoute?: (route: RouteOptions) => void;
}

const HEARTBEAT_ms = 20_000;
const REQUEST_ms = 300_000;
const THIS_MACHINE = ['localhost', '127.0.0.1', '[::1]'];

function contextOf(options: ServerOptions): ServerContext {
  const { address } = options;
  return {
    store: options.store,
    structures: options.structures,
    webFolder: options.webFolder ?? null,
    clock: options.clock ?? Date.now,
    address: {
      hosts: [...THIS_MACHINE, ...(address?.hosts ?? [])],
      anyAddress: address?.anyAddress ?? false,
      origin: address?.origin ?? null,
      cookieName: address?.cookieName ?? 'weighboat',
    },
    heartbeat_ms: options.heartbeat_ms ?? HEARTBEAT_ms,
    onFault: options.onFault ?? (() => undefined),
  };
}

const ROUTES: readonly ((app: App, context: ServerContext) => void | Promise<void>)[] = [
  healthRoutes,
  sessionRoutes,
  linkRoutes,
  experimentRoutes,
  versionRoutes,
  documentRoutes,
  runRoutes,
  entryRoutes,
  feedRoutes,
  attachmentRoutes,
  drawingRoutes,
  structureFactsRoutes,
  spectrumRoutes,
  settingsRoutes,
  transferRoutes,
  openApiRoute,
];

/**
 * The server, ready to listen or to be asked in a test. It reads no environment, prints nothing and
 * starts no timer before its first feed; closing it closes the feeds but not the store.
 */
export async function buildServer(options: ServerOptions): Promise<App> {
  const context = contextOf(options);
  const app: App = Fastify({
    logger: false,
    // While it stops it answers what still comes, in our words, and closes each line after it.
    return503OnClosing: false,
    // A request that dribbles in for longer is given up; an answer may take as long as it likes.
    requestTimeout: REQUEST_ms,
    // A name that is too long is refused by its own rule, not taken for another address.
    routerOptions: { maxParamLength: 4000 },
    // Addresses of a proxy on this machine are believed when one was said to be there.
    trustProxy: context.address.origin === null ? false : 'loopback',
    frameworkErrors: (error, _request, reply: FastifyReply) => {
      const { status, refusal } = answerTo(error);
      void reply.code(status).serializer(JSON.stringify).send(refusal);
    },
  }).withTypeProvider<ZodTypeProvider>();
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  answerFaults(app, context);
  if (options.onRoute !== undefined) app.addHook('onRoute', options.onRoute);
  await app.register(helmet, HEADERS);
  await app.register(cookie);
  guard(app, context);
  await app.register(rateLimit, {
    max: RATE.usual,
    timeWindow: '1 minute',
    keyGenerator: ({ signedIn, ip }) => signedIn?.tokenHash ?? ip,
    allowList: (request) => !isOfInterface(request),
  });
  app.addHook('onSend', async (request, reply) => {
    if (isOfInterface(request) && !reply.hasHeader('cache-control'))
      void reply.header('cache-control', 'no-store');
  });
  await describeRoutes(app);
  app.removeContentTypeParser('text/plain');
  for (const routes of ROUTES) await routes(app, context);
  await pages(app, context.webFolder);
  return app;
}
