import { sessionSchema, signInSchema } from '../wire/session.ts';
import { instantAfter } from './app.ts';
import type { App, ServerContext } from './app.ts';
import { signedInAs } from './guard.ts';
import { BODY_bytes, LIFE_ms, RATE } from './limits.ts';
import { answers, nothing, refused } from './refused.ts';
import { hashOf, newToken } from './tokens.ts';

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
}
