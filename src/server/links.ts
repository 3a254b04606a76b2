import type { Store } from '../store/store.ts';
import { linkSchema, newLinkSchema } from '../wire/session.ts';
import type { Role } from '../wire/session.ts';
import { instantAfter } from './app.ts';
import type { App, ServerContext } from './app.ts';
import { signedInAs } from './guard.ts';
import { BODY_bytes, LIFE_ms } from './limits.ts';
import { answers, found, MISSING } from './refused.ts';
import { hashOf, newToken } from './tokens.ts';

export interface LinkWish {
  readonly person: string;
  readonly role: Role;
  readonly run: string | null;
  readonly expiresAt: string;
}

/**
 * Keeps a fresh one-time link and gives the path that it opens. The token is after the #, where
 * neither a server's log nor a referrer ever sees it.
 */
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

export function linkRoutes(app: App, context: ServerContext): void {
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
      const { store } = context;
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
