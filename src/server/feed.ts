import type { ServerResponse } from 'node:http';
import * as z from 'zod';
import type { Store } from '../store/store.ts';
import { idSchema } from '../wire/common.ts';
import { MOST_ENTRIES_AT_ONCE } from '../wire/run.ts';
import type { KeptEntry } from '../wire/run.ts';
import { instantAfter } from './app.ts';
import type { App, ServerContext } from './app.ts';
import { seqSchema } from './entries.ts';
import { signedInAs } from './guard.ts';
import { FEEDS_PER_SESSION } from './limits.ts';
import { answers, found, MISSING, refused } from './refused.ts';

const frame = (kept: readonly KeptEntry[]): string =>
  `event: entries\nid: ${kept.at(-1)!.seq}\ndata: ${JSON.stringify(kept)}\n\n`;

/** Resolves when the line took the text; a slow reader makes the feed wait, not grow. */
async function write(line: ServerResponse, text: string): Promise<void> {
  if (line.writableEnded || line.destroyed || line.write(text)) return;
  await new Promise<void>((resolve) => {
    const done = (): void => {
      line.off('drain', done).off('close', done);
      resolve();
    };
    line.on('drain', done).on('close', done);
  });
}

/** So many beats may pass while a reader takes nothing; then its line is let go, and it comes back. */
const BEATS_BEHIND = 3;

interface Feed {
  /** Something may have been kept. */
  readonly wake: () => void;
  readonly beat: () => void;
  readonly end: () => void;
}

/**
 * Sends what was kept after `after`, then goes on from there. It always asks the store for what
 * comes after the last entry sent, and a word of new entries only wakes it: so nothing can fall
 * between what was there and what comes, and nothing comes twice.
 */
function openFeed(store: Store, run: string, after: number, line: ServerResponse): Feed {
  let last = after;
  let asleep = true;
  let woken = false;
  const send = async (): Promise<void> => {
    asleep = false;
    while (woken && !line.writableEnded) {
      woken = false;
      const kept = await store.entries(run, last);
      for (let at = 0; at < kept.length; at += MOST_ENTRIES_AT_ONCE) {
        const part = kept.slice(at, at + MOST_ENTRIES_AT_ONCE);
        await write(line, frame(part));
        last = part.at(-1)!.seq;
      }
    }
    asleep = true;
  };
  // A line that takes nothing would never come to its end.
  const end = (): void => void (line.writableNeedDrain ? line.destroy() : line.end());
  let behind = 0;
  line.on('drain', () => void (behind = 0));
  const beat = (): void => {
    if (!line.writableNeedDrain) line.write(': still here\n\n');
    else if (++behind > BEATS_BEHIND) line.destroy();
  };
  const wake = (): void => {
    woken = true;
    // Where the store fails, the reader asks again from the last entry that it has.
    if (asleep) void send().catch(end);
  };
  return { wake, beat, end };
}

/** A browser that lost the line sends `Last-Event-ID`; the first time it has only the address. */
function startOf(header: unknown, query: string | undefined): number {
  const given = typeof header === 'string' && /^\d{1,15}$/.test(header) ? header : query;
  return Number(given ?? 0);
}

const HEAD = {
  'content-type': 'text/event-stream; charset=utf-8',
  'cache-control': 'no-store',
  // The line serves nothing after its feed, so that a server that stops need not wait for it.
  connection: 'close',
  // A proxy that gathers an answer before it passes it on would hold the feed back.
  'x-accel-buffering': 'no',
} as const;

const SCHEMA = {
  tags: ['runs'],
  params: z.object({ id: idSchema }),
  querystring: z.object({ after: seqSchema.optional() }),
  response: answers({
    200: {
      description:
        'Server-sent events: `event: entries`, `id` the last place sent, `data` a list of kept entries.',
      content: { 'text/event-stream': { schema: z.string() } },
    },
    ...MISSING,
  }),
};

export function feedRoutes(app: App, context: ServerContext): void {
  const { store } = context;
  const openOf = new Map<string, number>();
  const feeds = new Set<Feed>();

  const count = (session: string, change: 1 | -1): void => {
    const now = (openOf.get(session) ?? 0) + change;
    if (now > 0) openOf.set(session, now);
    else openOf.delete(session);
  };

  /** Who was signed out meanwhile hears no more; entries of another process are found here too. */
  const beat = async (feed: Feed, tokenHash: string): Promise<void> => {
    const session = await store.session(tokenHash, instantAfter(context));
    if (session === undefined) return feed.end();
    feed.beat();
    feed.wake();
  };

  app.get(
    '/api/runs/:id/feed',
    {
      exposeHeadRoute: false,
      config: { access: 'own-run' },
      schema: SCHEMA,
    },
    async (request, reply) => {
      const { id } = request.params;
      const { tokenHash } = signedInAs(request);
      found(await store.run(id), 'bench record');
      if ((openOf.get(tokenHash) ?? 0) >= FEEDS_PER_SESSION)
        throw refused(
          429,
          'too-many-feeds',
          `This device follows ${FEEDS_PER_SESSION} bench records already.`,
          'Close one of its pages.',
        );
      reply.hijack();
      const line = reply.raw;
      // Whoever left meanwhile is not told of again.
      if (line.destroyed) return;
      line.writeHead(200, HEAD);
      line.write('retry: 3000\n\n');
      const feed = openFeed(
        store,
        id,
        startOf(request.headers['last-event-id'], request.query.after),
        line,
      );
      feeds.add(feed);
      count(tokenHash, 1);
      const unhear = store.onEntries(id, feed.wake);
      const timer = setInterval(
        () => void beat(feed, tokenHash).catch(feed.end),
        context.heartbeat_ms,
      );
      line.on('close', () => {
        clearInterval(timer);
        unhear();
        feeds.delete(feed);
        count(tokenHash, -1);
      });
      feed.wake();
    },
  );

  app.addHook('preClose', () => {
    for (const feed of feeds) feed.end();
  });
}
