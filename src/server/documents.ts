import * as z from 'zod';
import { planAnswer } from '../core/report/answer/answer.ts';
import { hashSchema } from '../wire/common.ts';
import { documentAnswerSchema } from '../wire/experiment.ts';
import type { App, ServerContext } from './app.ts';
import { leastRecent } from './least-recent.ts';
import { planOf } from './plan.ts';
import { answers, found, MISSING } from './refused.ts';

const tags = ['documents'];
const params = z.object({ hash: hashSchema });
const MOST_ANSWERS = 1000;

export function documentRoutes(app: App, { store }: ServerContext): void {
  const textOf = async (hash: string) => found(await store.documentText(hash), 'document');

  app.get(
    '/api/documents/:hash',
    {
      schema: {
        tags,
        params,
        response: answers({
          200: {
            description: 'The text of one version, which never changes.',
            content: { 'text/markdown': { schema: z.string() } },
          },
          ...MISSING,
        }),
      },
    },
    async (request, reply) => {
      const text = await textOf(request.params.hash);
      return reply
        .type('text/markdown; charset=utf-8')
        .header('cache-control', 'private, max-age=31536000, immutable')
        .send(text);
    },
  );

  // The shelf asks for many at once, and a document is enacted once for all of them.
  const remembered = leastRecent<string[]>(MOST_ANSWERS, MOST_ANSWERS);
  app.get(
    '/api/documents/:hash/answer',
    {
      schema: {
        tags,
        params,
        response: answers({ 200: documentAnswerSchema, ...MISSING }),
      },
    },
    async (request) => {
      const { hash } = request.params;
      const text = await textOf(hash);
      const before = remembered.get(hash);
      if (before !== undefined) return { matter: before };
      const { experiment, plan } = planOf(text);
      const matter = [...planAnswer(experiment, plan).matter];
      remembered.set(hash, matter, 1);
      return { matter };
    },
  );
}
