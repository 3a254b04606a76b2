import 'fake-indexeddb/auto';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { benchOf } from './bench.ts';
import { openBenchDatabase } from './database.ts';
import type { BenchDatabase } from './database.ts';
import { putInOutbox, readDevice, tryAgain } from './outbox.ts';
import { sendWaiting } from './send.ts';
import { entry, LOST, refusedWith, RUN, serverInMemory } from './testing.ts';

let database: BenchDatabase;
let place = 0;

beforeEach(async () => {
  database = await openBenchDatabase(`test-${(place += 1)}`);
});
afterEach(() => database.close());

/** What a reload leaves: the disk and nothing else. */
async function afterReload(): Promise<BenchDatabase> {
  database.close();
  database = await openBenchDatabase(`test-${place}`);
  return database;
}

const write = async (...ids: string[]) => {
  for (const id of ids) await putInOutbox(database, RUN, entry(id));
};
const waitingIds = async () => (await readDevice(database, RUN)).waiting.map(({ id }) => id);
const numbered = (count: number) => Array.from({ length: count }, (_, i) => `entry-${100 + i}`);
const photo = (hash: string) => ({ hash, mediaType: 'image/jpeg', bytes: new ArrayBuffer(3) });

describe('sending', () => {
  it('sends in the order of writing, in batches, and holds what was acknowledged', async () => {
    const { server, kept, requests } = serverInMemory();
    const ids = numbered(120);
    await write(...ids);
    expect(await sendWaiting(database, RUN, server)).toEqual({ kind: 'all' });
    expect(kept.map(({ entry: { id } }) => id)).toEqual(ids);
    expect(requests.map((batch) => batch.length)).toEqual([50, 50, 20]);
    const { held, waiting } = await readDevice(database, RUN);
    expect(held.map(({ id }) => id)).toEqual(ids);
    expect(waiting).toEqual([]);
  });

  it('keeps everything through a lost network and a reload', async () => {
    const { server, faults, kept } = serverInMemory();
    await write('entry-a', 'entry-b');
    faults.before = () => {
      throw LOST;
    };
    expect(await sendWaiting(database, RUN, server)).toMatchObject({ kind: 'later' });
    await afterReload();
    expect(await waitingIds()).toEqual(['entry-a', 'entry-b']);
    delete faults.before;
    await sendWaiting(database, RUN, server);
    expect(kept).toHaveLength(2);
  });

  it('has an entry once when its acknowledgement was lost and the page was closed', async () => {
    const { server, faults, kept } = serverInMemory();
    await write('entry-a');
    faults.after = () => {
      throw LOST;
    };
    await sendWaiting(database, RUN, server);
    expect(await waitingIds()).toEqual(['entry-a']);
    await afterReload();
    delete faults.after;
    await sendWaiting(database, RUN, server);
    expect(kept).toHaveLength(1);
    expect(await waitingIds()).toEqual([]);
  });

  it('does no harm when two tabs send at once', async () => {
    const { server, kept } = serverInMemory();
    const ids = numbered(60);
    await write(...ids);
    await Promise.all([sendWaiting(database, RUN, server), sendWaiting(database, RUN, server)]);
    expect(kept.map(({ entry: { id } }) => id)).toEqual(ids);
    expect((await readDevice(database, RUN)).held).toHaveLength(60);
  });

  it('keeps back what is refused, with the reason, and sends the rest', async () => {
    const { server, kept, refuses } = serverInMemory();
    const ids = numbered(5);
    await write(...ids);
    refuses.set(ids[1]!, refusedWith(400));
    refuses.set(ids[3]!, refusedWith(409));
    expect(await sendWaiting(database, RUN, server)).toEqual({ kind: 'all' });
    expect(kept.map(({ entry: { id } }) => id)).toEqual([ids[0], ids[2], ids[4]]);
    const { waiting } = await readDevice(database, RUN);
    expect(waiting.map(({ id, refusal }) => [id, refusal?.code])).toEqual([
      [ids[1], 'refused-400'],
      [ids[3], 'refused-409'],
    ]);
    refuses.clear();
    await tryAgain(database, RUN);
    await sendWaiting(database, RUN, server);
    expect(kept).toHaveLength(5);
  });

  it.each([401, 403, 404])('waits without loss where it is not let in (%s)', async (status) => {
    const { server, faults } = serverInMemory();
    await write('entry-a');
    faults.before = () => {
      throw refusedWith(status);
    };
    expect(await sendWaiting(database, RUN, server)).toMatchObject({
      kind: 'not-let-in',
      refused: { status },
    });
    expect((await readDevice(database, RUN)).waiting).toMatchObject([{ id: 'entry-a' }]);
  });

  it.each([429, 500, 503, 507])('tries later after a fault of the server (%s)', async (status) => {
    const { server, faults } = serverInMemory();
    await write('entry-a');
    faults.before = () => {
      throw refusedWith(status);
    };
    expect(await sendWaiting(database, RUN, server)).toMatchObject({ kind: 'later' });
    expect(await waitingIds()).toEqual(['entry-a']);
  });

  it('leaves the entries of another run alone, and names it', async () => {
    const { server, kept } = serverInMemory();
    await putInOutbox(database, 'run-00000002', entry('entry-z'));
    await write('entry-a');
    await sendWaiting(database, RUN, server);
    expect(kept).toHaveLength(1);
    expect((await readDevice(database, RUN)).elsewhere).toEqual(['run-00000002']);
  });

  it('ends with every entry once and in order, whatever fails and whenever', async () => {
    const fault = fc.constantFrom('before', 'after', 'reload', 'none');
    await fc.assert(
      fc.asyncProperty(
        fc.array(fault, { maxLength: 12 }),
        fc.integer({ min: 1, max: 9 }),
        async (happenings, count) => {
          place += 1;
          await afterReload();
          const { server, kept, faults } = serverInMemory();
          const ids = numbered(count);
          let next = 0;
          for (const happening of happenings) {
            if (next < ids.length) await write(ids[next++]!);
            const fail = () => {
              throw LOST;
            };
            delete faults.before;
            delete faults.after;
            if (happening === 'before' || happening === 'after') faults[happening] = fail;
            if (happening === 'reload') await afterReload();
            await sendWaiting(database, RUN, server);
          }
          delete faults.before;
          delete faults.after;
          await write(...ids.slice(next));
          await sendWaiting(database, RUN, server);
          expect(kept.map(({ entry: { id } }) => id)).toEqual(ids);
          expect(await waitingIds()).toEqual([]);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('photos', () => {
  it('go before the entries that name them, and stay until those are held', async () => {
    const { server, requests, files } = serverInMemory();
    const named = entry('entry-a', { attachments: ['f'.repeat(64)] });
    await putInOutbox(database, RUN, named, [photo('f'.repeat(64))]);
    await sendWaiting(database, RUN, server);
    expect(requests).toEqual([['f'.repeat(64)], ['entry-a']]);
    expect(files.size).toBe(1);
    expect((await readDevice(database, RUN)).files).toEqual([]);
  });

  it('are not sent twice where the entry had to wait', async () => {
    const { server, requests, faults } = serverInMemory();
    const named = entry('entry-a', { attachments: ['f'.repeat(64)] });
    await putInOutbox(database, RUN, named, [photo('f'.repeat(64))]);
    faults.before = ([id]) => {
      if (id === 'entry-a') throw LOST;
    };
    await sendWaiting(database, RUN, server);
    delete faults.before;
    await sendWaiting(database, RUN, server);
    expect(requests.filter(([id]) => id === 'f'.repeat(64))).toHaveLength(1);
  });

  it('that are refused stay, and do not hold back the words', async () => {
    const { server, kept, refuses } = serverInMemory();
    const named = entry('entry-a', { attachments: ['f'.repeat(64)] });
    await putInOutbox(database, RUN, named, [photo('f'.repeat(64))]);
    refuses.set('f'.repeat(64), refusedWith(413));
    await sendWaiting(database, RUN, server);
    expect(kept).toHaveLength(1);
    expect((await readDevice(database, RUN)).files).toMatchObject([
      { refusal: { code: 'refused-413' } },
    ]);
  });
});

describe('a bench record on a device', () => {
  it('opens without a network as it was last', async () => {
    const { server, keep } = serverInMemory();
    keep(entry('entry-a'));
    await benchOf(RUN, database, server).open();
    await write('entry-b');
    const lost = { ...server, run: () => Promise.reject(LOST) };
    const bench = benchOf(RUN, await afterReload(), lost);
    await bench.open();
    const { opened, held, waiting, way } = bench.state();
    expect(opened?.run.bench).toBe('Bench 4');
    expect([...held, ...waiting].map(({ id }) => id)).toEqual(['entry-a', 'entry-b']);
    expect(way).toBe('lost');
  });

  it('does not double its own entries when they come back', async () => {
    const { server, kept, faults } = serverInMemory();
    const bench = benchOf(RUN, database, server);
    await bench.open();
    await bench.enter(entry('entry-a'));
    faults.after = () => {
      throw LOST;
    };
    await bench.send();
    await bench.hear(kept);
    expect(bench.state().held).toEqual([entry('entry-a')]);
    expect(bench.state().waiting).toEqual([]);
  });

  it('keeps its own line apart from another one under the same id', async () => {
    const { server } = serverInMemory();
    const bench = benchOf(RUN, database, server);
    await bench.open();
    await bench.enter(entry('entry-a'));
    const other = entry('entry-a', { text: 'something else' });
    await bench.hear([{ seq: 1, receivedAt: other.at, entry: other }]);
    expect(bench.state().waiting).toMatchObject([{ entry: { text: 'entry-a' } }]);
    expect(bench.state().held).toEqual([other]);
  });

  it('knows up to where it heard the record, whatever it wrote itself meanwhile', async () => {
    const { server, keep } = serverInMemory();
    const bench = benchOf(RUN, database, server);
    await bench.open();
    keep(entry('entry-of-another-device'));
    await bench.enter(entry('entry-b'));
    await bench.send();
    expect(bench.state().held.map(({ id }) => id)).toEqual(['entry-b']);
    // The feed has to start before what the other device wrote, though our own came after it.
    expect(bench.state().opened?.heardSeq).toBe(0);
  });

  it('shows the later of two readings, whichever ends first', async () => {
    const { server } = serverInMemory();
    const bench = benchOf(RUN, database, server);
    await bench.open();
    const entered = Array.from({ length: 20 }, (_, i) => bench.enter(entry(`entry-${i}`)));
    await Promise.all([...entered, bench.readAgain(), bench.readAgain()]);
    expect(bench.state().waiting).toHaveLength(20);
  });

  it('knows that the way is open when what it sent came back before the answer was lost', async () => {
    const { server, kept } = serverInMemory();
    let lost = false;
    const bench = benchOf(RUN, database, {
      ...server,
      sendEntries: async (run, entries) => {
        const answer = await server.sendEntries(run, entries);
        if (lost) return answer;
        lost = true;
        await bench.hear(kept);
        throw LOST;
      },
    });
    await bench.open();
    await bench.enter(entry('entry-a'));
    expect(await bench.send()).toMatchObject({ kind: 'later' });
    expect(bench.state()).toMatchObject({ way: 'lost', waiting: [] });
    expect(await bench.send()).toEqual({ kind: 'all' });
    expect(bench.state().way).toBe('open');
  });

  it('says when nobody is signed in, and keeps what it has', async () => {
    const { server } = serverInMemory();
    await benchOf(RUN, database, server).open();
    await write('entry-a');
    const bench = benchOf(RUN, database, {
      ...server,
      run: () => Promise.reject(refusedWith(401)),
    });
    await bench.open();
    expect(bench.state()).toMatchObject({ way: 'not-let-in', refusal: { status: 401 } });
    expect(bench.state().waiting).toHaveLength(1);
  });
});
