import { once } from 'node:events';
import { request } from 'node:http';
import type { IncomingMessage } from 'node:http';
import { connect } from 'node:net';
import type { AddressInfo, Socket } from 'node:net';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { KeptEntry } from '../../src/wire/run.ts';
import { entry, serving, withRun } from './serving.ts';
import type { Served } from './serving.ts';

interface Follower {
  readonly status: number;
  /** The places in order, as they came. */
  readonly seqs: () => readonly number[];
  /** `id:` of the last event. */
  readonly lastId: () => string | undefined;
  readonly text: () => string;
  readonly ended: Promise<void>;
  readonly leave: () => void;
}

const eventsOf = (text: string): { readonly id: string; readonly kept: readonly KeptEntry[] }[] =>
  text
    .split('\n\n')
    .filter((part) => part.startsWith('event: entries\n'))
    .map((part) => {
      const [, id, data] = part.split('\n');
      return { id: id!.slice(4), kept: JSON.parse(data!.slice(6)) as KeptEntry[] };
    });

async function follow(
  { app }: Served,
  path: string,
  headers: Readonly<Record<string, string>>,
): Promise<Follower> {
  if (!app.server.listening) await app.listen({ port: 0, host: '127.0.0.1' });
  const { port } = app.server.address() as AddressInfo;
  const asked = request({ port, host: '127.0.0.1', path, headers });
  asked.end();
  const [response] = (await once(asked, 'response')) as [IncomingMessage];
  let text = '';
  response.setEncoding('utf8').on('data', (part: string) => void (text += part));
  response.on('error', () => undefined);
  const whole = (): string => text.slice(0, text.lastIndexOf('\n\n') + 2);
  return {
    status: response.statusCode ?? 0,
    seqs: () => eventsOf(whole()).flatMap(({ kept }) => kept.map(({ seq }) => seq)),
    lastId: () => eventsOf(whole()).at(-1)?.id,
    text: () => text,
    ended: new Promise((resolve) => void response.on('close', resolve)),
    leave: () => void asked.destroy(),
  };
}

/** Waits for something that is bound to come; the test's own time limit ends it otherwise. */
async function until(holds: () => boolean): Promise<void> {
  while (!holds()) await new Promise((resolve) => setTimeout(resolve, 2));
}

const feedOf = (run: string, after?: number): string =>
  `/api/runs/${run}/feed${after === undefined ? '' : `?after=${after}`}`;

describe('the live feed', () => {
  it('sends what is there, then what comes, and tells its place', async () => {
    const served = await serving();
    const { instructor, run } = await withRun(served);
    const path = `/api/runs/${run}/entries`;
    await instructor('POST', path, { entries: [entry('a'), entry('b')] });
    const cookie = await served.signIn();
    const follower = await follow(served, feedOf(run), { cookie });
    await until(() => follower.seqs().length === 2);
    await instructor('POST', path, { entries: [entry('c')] });
    await until(() => follower.seqs().length === 3);
    expect([follower.seqs(), follower.lastId()]).toEqual([[1, 2, 3], '3']);
    follower.leave();
    await follower.ended;
    const again = await follow(served, feedOf(run, 1), { cookie, 'last-event-id': '2' });
    await until(() => again.seqs().length === 1);
    expect(again.seqs()).toEqual([3]);
  });

  it('leaves nothing out and says nothing twice, whenever a reader comes in', async () => {
    const served = await serving();
    const { run } = await withRun(served);
    const cookie = await served.signIn();
    let n = 0;
    const write = (count: number) =>
      served.store.addEntries(
        run,
        Array.from({ length: count }, () => entry(`entry-${n++}`)) as never,
        'Bench 4',
      );
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 2, maxLength: 12 }),
        fc.nat(11),
        async (batches, joinAt) => {
          const begun = (await served.store.entries(run)).at(-1)?.seq ?? 0;
          let joined: Promise<Follower> | undefined;
          const written: Promise<unknown>[] = [];
          for (const [at, count] of batches.entries()) {
            // Reader and writers start in one breath, so that they meet at every possible point.
            if (at === joinAt % batches.length)
              joined = follow(served, feedOf(run, begun), { cookie });
            written.push(write(count));
            if (count % 3 === 0) await written.at(-1);
          }
          const follower = await joined!;
          await Promise.all(written);
          const expected = (await served.store.entries(run, begun)).map(({ seq }) => seq);
          await until(() => follower.seqs().length >= expected.length);
          follower.leave();
          await follower.ended;
          expect(follower.seqs()).toEqual(expected);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('keeps the line warm, and ends it for who was signed out', async () => {
    const served = await serving({ heartbeat_ms: 10 });
    const { run } = await withRun(served);
    const cookie = await served.signIn();
    const follower = await follow(served, feedOf(run), { cookie });
    await until(() => follower.text().includes(': still here'));
    await served.as(cookie)('DELETE', '/api/session');
    await follower.ended;
    expect(follower.text()).toContain('retry: 3000');
  });

  it('lets go of who takes nothing, and is not held up by it', async () => {
    const served = await serving({ heartbeat_ms: 25 });
    const { run } = await withRun(served);
    const cookie = await served.signIn();
    // More than the system itself keeps for a reader.
    for (let n = 0; n < 10; n++) {
      const entries = Array.from({ length: 200 }, (_, i) =>
        entry(`${n}-${i}`, { text: 'x'.repeat(9900) }),
      );
      await served.store.addEntries(run, entries as never, 'Bench 4');
    }
    await served.app.listen({ port: 0, host: '127.0.0.1' });
    const { port } = served.app.server.address() as AddressInfo;
    const stalled = connect(port, '127.0.0.1').on('error', () => undefined);
    stalled.pause();
    stalled.write(
      `GET ${feedOf(run)} HTTP/1.1\r\nhost: 127.0.0.1:${port}\r\ncookie: ${cookie}\r\n\r\n`,
    );
    const [line] = (await once(served.app.server, 'connection')) as [Socket];
    await once(line, 'close');
    stalled.destroy();
    const other = await follow(served, feedOf(run, 1999), { cookie });
    await until(() => other.seqs().length === 1);
    other.leave();
  });

  it('ends when the server stops', async () => {
    const served = await serving();
    const { run } = await withRun(served);
    const follower = await follow(served, feedOf(run), { cookie: await served.signIn() });
    expect(follower.status).toBe(200);
    await served.app.close();
    await follower.ended;
  });

  it('is given to one device eight times, and again when one is closed', async () => {
    const served = await serving();
    const { run } = await withRun(served);
    const cookie = await served.signIn();
    const open = () => follow(served, feedOf(run), { cookie });
    const followers = await Promise.all(Array.from({ length: 8 }, open));
    expect(followers.map(({ status }) => status)).toEqual(Array(8).fill(200));
    const ninth = await open();
    expect(ninth.status).toBe(429);
    followers[0]!.leave();
    let next = await open();
    while (next.status === 429) next = await open();
    expect(next.status).toBe(200);
  });

  it('of no record is refused', async () => {
    const served = await serving();
    const { instructor } = await withRun(served);
    expect((await instructor('GET', feedOf('no-such-run'))).status).toBe(404);
    expect((await instructor('GET', '/api/runs/run-number-1/feed?after=-1')).status).toBe(400);
  });
});
