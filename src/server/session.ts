import type { Store } from '../store/store.ts';
import { linkSchema, newLinkSchema, sessionSchema, signInSchema } from '../wire/session.ts';
import type { Role } from '../wire/session.ts';
import { instantAfter } from './app.ts';
import type { App, ServerContext } from './app.ts';
import { signedInAs } from './guard.ts';
import { BODY_bytes, LIFE_ms, RATE } from './limits.ts';
import { answers, found, MISSING, nothing, refused } from './refused.ts';
import { hashOf, newToken } from './tokens.ts';

export interface LinkWish {
  readonly person: string;
  readonly role: Role;
  readonly run: string | null;
  readonly expiresAt: string;
}

/** Keeps a fresh one-time link and gives the path that it opens. The token is after the #, where
 * neither a server's log nor a referrer ever sees it. */
export async function makeLink(store: Store, wish: LinkWish): Promise<string> {
  const token = newToken();
  await store.addLink({ tokenHash: hashOf(token), ...wish });
  return `/sign-in#${token}`;
}

/** A bench is a person of its own: what it enters is signed with its name. */
async function personOfBench({ store }: ServerContext, run: string): Promise<string> {
  const { bench } = found(await store.run(run), 'bench record');
  const id = `bench-${hashOf(run).slice(0, 32)}`;
  await store.addPerson({ id, name: bench });
  return id;
}

export function sessionRoutes(app: App, context: ServerContext): void {
  const { store, address } = context;
  const cookie = {
    path: '/',
    httpOnly: true,
    sameSite: 'strict',
    secure: address.origin?.startsWith('https:') ?? false,
  } as const;

  app.post(
    '/api/session',
    {
      bodyLimit: BODY_bytes.usual,
      config: { access: 'open', rateLimit: { max: RATE.signIn } },
      schema: { tags: ['session'], body: signInSchema, response: answers({ 200: sessionSchema }) },
    },
    async ({ body }, reply) => {
      const session = await store.useLink(hashOf(body.token), instantAfter(context));
      if (session === undefined)
        throw refused(
          401,
          'link-spent',
          'This sign-in link was used already, or its time is over.',
          'A new one: press Enter where Weighboat runs, or make one on a device that is signed in.',
        );
      const token = newToken();
      const expiresAt = instantAfter(context, LIFE_ms.session);
      await store.addSession({ tokenHash: hashOf(token), session, expiresAt });
      void reply.setCookie(address.cookieName, token, {
        ...cookie,
        maxAge: LIFE_ms.session / 1000,
      });
      return session;
    },
  );

  app.get(
    '/api/session',
    {
      config: { access: 'signed-in' },
      schema: { tags: ['session'], response: answers({ 200: sessionSchema }) },
    },
    (request) => signedInAs(request).session,
  );

  app.delete(
    '/api/session',
    {
      config: { access: 'signed-in' },
      schema: { tags: ['session'], response: answers({ 204: nothing }) },
    },
    async (request, reply) => {
      await store.endSession(signedInAs(request).tokenHash);
      return reply.clearCookie(address.cookieName, cookie).code(204).send();
    },
  );

  app.post(
    '/api/links',
    {
      bodyLimit: BODY_bytes.usual,
      config: { access: 'instructor' },
      schema: {
        tags: ['session'],
        body: newLinkSchema,
        response: answers({ 201: linkSchema, ...MISSING }),
      },
    },
    async (request, reply) => {
      const { run } = request.body;
      const own = run === null;
      const expiresAt = instantAfter(context, own ? LIFE_ms.ownLink : LIFE_ms.benchLink);
      const person = own
        ? signedInAs(request).session.person.id
        : await personOfBench(context, run);
      const role = own ? 'instructor' : 'bench';
      const path = await makeLink(store, { person, role, run, expiresAt });
      return reply.code(201).send({ path, expiresAt });
    },
  );
}
