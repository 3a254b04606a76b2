import { isIP } from 'node:net';
import type { FastifyRequest } from 'fastify';
import type { Session } from '../wire/session.ts';
import { instantAfter } from './app.ts';
import type { App, ServedAddress, ServerContext } from './app.ts';
import { refused } from './refused.ts';
import { hashOf } from './tokens.ts';

/**
 * Who may use a route: `open` anybody, `signed-in` every session, `own-run` a session that sees
 * everything or the bench whose run the path names, `instructor` the first of these only.
 */
export type Access = 'open' | 'signed-in' | 'own-run' | 'instructor';

export interface SignedIn {
  readonly session: Session;
  readonly tokenHash: string;
}

/** The interface; whatever else is asked for is a page or a file of one. */
export const isInterface = (url: string): boolean => /^\/api(?:[/?]|$)/.test(url);

/**
 * Asked of the route where there is one, never of the address alone: to the router `/%61pi` and
 * `http://any.example/api` are `/api`.
 */
export const isOfInterface = ({ routeOptions, url }: FastifyRequest): boolean =>
  isInterface(routeOptions.url ?? url);

/** A host's name without its port; the brackets of an IPv6 address are kept. */
export function hostName(host: string): string {
  return (/^(\[[^\]]*\]|[^:]*)/.exec(host)?.[0] ?? '').toLowerCase();
}

/**
 * Against DNS rebinding: a page of somewhere else can give its own name our address, but cannot
 * make the browser call us by ours.
 */
export function isOwnHost(host: string | undefined, address: ServedAddress): boolean {
  if (host === undefined) return false;
  const name = hostName(host);
  if (address.hosts.includes(name)) return true;
  return address.anyAddress && isIP(name.replace(/^\[|\]$/g, '')) !== 0;
}

const SAFE: ReadonlySet<string> = new Set(['GET', 'HEAD', 'OPTIONS']);

/** Against requests that a page of somewhere else sends with the cookie of this one. */
export function isOwnPage(
  method: string,
  headers: Readonly<Record<string, string | string[] | undefined>>,
  address: ServedAddress,
): boolean {
  if (SAFE.has(method)) return true;
  const site = headers['sec-fetch-site'];
  if (site !== undefined) return site === 'same-origin' || site === 'none';
  const { origin, host } = headers;
  if (typeof origin !== 'string' || !URL.canParse(origin)) return false;
  return origin === address.origin || new URL(origin).host === host;
}

/** `own-run` reads the run from the path, where every such route has it as `id`. */
function may(access: Access, session: Session, params: unknown): boolean {
  if (session.role === 'instructor' || access === 'signed-in') return true;
  if (access !== 'own-run' || session.run === null) return false;
  return (params as { readonly id?: string }).id === session.run;
}

async function signedInOf(
  request: FastifyRequest,
  context: ServerContext,
): Promise<SignedIn | null> {
  const token = request.cookies[context.address.cookieName];
  if (token === undefined || token === '') return null;
  const tokenHash = hashOf(token);
  const session = await context.store.session(tokenHash, instantAfter(context));
  return session === undefined ? null : { session, tokenHash };
}

/** What a route of the interface asks for when it says nothing is the most that can be asked. */
const accessOf = (request: FastifyRequest): Access =>
  request.routeOptions.config.access ?? (isOfInterface(request) ? 'instructor' : 'open');

/** Stands before every route, those that do not exist included. */
export function guard(app: App, context: ServerContext): void {
  app.decorateRequest('signedIn', null);
  app.addHook('onRequest', async (request) => {
    const { headers, method } = request;
    if (!isOwnHost(headers.host, context.address))
      throw refused(
        421,
        'not-this-host',
        'Weighboat does not answer to that name.',
        'Open it by the address that it prints at its start, or start it with --host or --url.',
      );
    if (!isOwnPage(method, headers, context.address))
      throw refused(
        403,
        'other-page',
        'Only a page of this Weighboat may change something here.',
        'A program says the same by sending an Origin that is this address.',
      );
    const access = accessOf(request);
    if (access === 'open' || request.is404) return;
    const signedIn = await signedInOf(request, context);
    if (signedIn === null)
      throw refused(
        401,
        'not-signed-in',
        'Nobody is signed in on this device.',
        'Open a sign-in link: pressing Enter where Weighboat runs prints a new one.',
      );
    if (!may(access, signedIn.session, request.params))
      throw refused(
        403,
        'not-this-bench',
        'This device is signed in for one bench, and that does not reach so far.',
        'Open a sign-in link without a bench to see everything.',
      );
    request.signedIn = signedIn;
  });
}

/** The session of a route that the guard lets nobody into without one. */
export function signedInAs({ signedIn }: FastifyRequest): SignedIn {
  if (signedIn === null) throw new Error('a route that is open to anybody has no session');
  return signedIn;
}
