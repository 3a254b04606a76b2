import swagger from '@fastify/swagger';
import { jsonSchemaTransform } from 'fastify-type-provider-zod';
import type { App } from './app.ts';
import { isInterface } from './guard.ts';

/** Gathers the routes that are registered after it. */
export async function describeRoutes(app: App): Promise<void> {
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'Weighboat',
        version: '1',
        description: 'Experiments, their versions, the records of their benches.',
      },
    },
    transform: (route) =>
      isInterface(route.url)
        ? jsonSchemaTransform(route)
        : { schema: { hide: true }, url: route.url },
  });
}

export function openApiRoute(app: App): void {
  app.get(
    '/api/openapi.json',
    { config: { access: 'signed-in' }, schema: { hide: true } },
    (_request, reply) =>
      reply.type('application/json').serializer(JSON.stringify).send(app.swagger()),
  );
}
