import * as z from 'zod';
import type { App, ServerContext } from './app.ts';
import { answers } from './refused.ts';

export function healthRoutes(app: App, { store }: ServerContext): void {
  app.get(
    '/api/health',
    {
      config: { access: 'open' },
      schema: { tags: ['health'], response: answers({ 200: z.object({ ok: z.literal(true) }) }) },
    },
    async () => {
      // Without its store the server can do nothing: then this throws, and the answer is 503.
      await store.settings();
      return { ok: true as const };
    },
  );
}
