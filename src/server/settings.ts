import { settingsSchema } from '../wire/settings.ts';
import type { App, ServerContext } from './app.ts';
import { BODY_bytes } from './limits.ts';
import { answers, NO_ROOM } from './refused.ts';

const tags = ['settings'];

export function settingsRoutes(app: App, { store }: ServerContext): void {
  app.get(
    '/api/settings',
    {
      config: { access: 'signed-in' },
      schema: { tags, response: answers({ 200: settingsSchema }) },
    },
    () => store.settings(),
  );

  app.put(
    '/api/settings',
    {
      bodyLimit: BODY_bytes.entries,
      schema: {
        tags,
        body: settingsSchema,
        response: answers({ 200: settingsSchema, ...NO_ROOM }),
      },
    },
    async ({ body }) => {
      await store.setSettings(body);
      return store.settings();
    },
  );
}
