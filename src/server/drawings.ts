import * as z from 'zod';
import { printHill } from '../core/chemistry/hill.ts';
import { documentTextSchema } from '../wire/experiment.ts';
import type { App, ServerContext } from './app.ts';
import { leastRecent } from './least-recent.ts';
import type { LeastRecent } from './least-recent.ts';
import { BODY_bytes, LONGEST_SMILES } from './limits.ts';
import { answers, refused, UNREADABLE } from './refused.ts';
import { schemeOf } from './scheme.ts';
import { SANDBOXED } from './security.ts';
import { hashOf } from './tokens.ts';

const tags = ['structures'];
const smilesSchema = z.string().min(1).max(LONGEST_SMILES);
const structureSchema = z.object({
  ok: z.boolean(),
  canonical: z.string().optional(),
  formula: z.string().optional(),
  message: z.string().optional(),
});

const MOST_DRAWINGS = 1000;
const MOST_CHARACTERS = 8_000_000;

/** Remembers what a drawing took time to work out. */
async function remembered<T extends string | null>(
  memory: LeastRecent<T>,
  key: string,
  draw: () => Promise<T>,
): Promise<T> {
  const before = memory.get(key);
  if (before !== undefined) return before;
  const drawn = await draw();
  memory.set(key, drawn, drawn?.length ?? 1);
  return drawn;
}

export function drawingRoutes(app: App, context: ServerContext): void {
  drawingRoute(app, context);
  schemeRoute(app, context);

  app.post(
    '/api/structures',
    {
      bodyLimit: BODY_bytes.usual,
      schema: {
        tags,
        body: z.strictObject({ smiles: smilesSchema }),
        response: answers({ 200: structureSchema }),
      },
    },
    async ({ body: { smiles } }) => {
      const kit = await context.structures();
      const canonical = kit.canonical(smiles);
      if (!canonical.ok) return canonical;
      const counted = kit.composition(smiles);
      return {
        ok: true,
        canonical: canonical.smiles,
        ...(counted.ok && { formula: printHill(counted.composition) }),
      };
    },
  );
}

function drawingRoute(app: App, { structures }: ServerContext): void {
  const memory = leastRecent<string>(MOST_DRAWINGS, MOST_CHARACTERS);

  app.get(
    '/api/drawings',
    {
      config: { access: 'signed-in' },
      schema: {
        tags,
        querystring: z.object({ smiles: smilesSchema, dark: z.enum(['0', '1']).optional() }),
        response: answers({
          200: {
            description: 'The structure, drawn.',
            content: { 'image/svg+xml': { schema: z.string() } },
          },
          ...UNREADABLE,
        }),
      },
    },
    async ({ query: { smiles, dark } }, reply) => {
      const svg = await remembered(memory, `${dark ?? '0'} ${smiles}`, async () => {
        const drawn = (await structures()).drawing(smiles, { dark: dark === '1' });
        if (!drawn.ok) throw refused(422, 'no-structure', drawn.message);
        return drawn.svg;
      });
      return reply
        .type('image/svg+xml')
        .header('content-security-policy', SANDBOXED)
        .header('cache-control', 'private, max-age=86400')
        .send(svg);
    },
  );
}

function schemeRoute(app: App, { structures }: ServerContext): void {
  const memory = leastRecent<string | null>(MOST_DRAWINGS, MOST_CHARACTERS);

  app.post(
    '/api/schemes',
    {
      bodyLimit: BODY_bytes.document,
      schema: {
        tags,
        body: z.strictObject({ text: documentTextSchema, dark: z.boolean() }),
        response: answers({ 200: z.object({ svg: z.string().nullable() }) }),
      },
    },
    async ({ body: { text, dark } }) => ({
      svg: await remembered(memory, `${dark} ${hashOf(text)}`, async () =>
        schemeOf(text, dark, await structures()),
      ),
    }),
  );
}
