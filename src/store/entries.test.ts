import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BenchEntry } from '../core/record/entry.ts';
import type { KeptEntry } from '../wire/run.ts';
import { entryText } from './entries.ts';
import { openPostgresStore } from './postgres.ts';
import type { Store } from './store.ts';
import {
  askPostgres,
  forEachKind,
  later,
  newFolder,
  onPostgres,
  postgresUrl,
  sqlitePlace,
} from './testing/kinds.ts';
import { begin, net, RUN } from './testing/pieces.ts';
import Database from 'better-sqlite3';
import { codeOf, valueOf } from './testing/value-of.ts';

forEachKind('entries', ({ place }) => {
  async function begun() {
    const store = await (await place()).open();
    await begin(store);
    return store;
  }

  it('are acknowledged with numbers that grow, and come back as they were sent', async () => {
    const store = await begun();
    const sent: BenchEntry[] = [
      { ...net('a'), document: 'f00', bench: 'Bench 1', decimals: 4, instrument: 'balance 2' },
      { id: 'b', at: '2026-02-03', by: '', kind: 'observation', text: 'Cloudy \u0000 \uD800 5 °C' },
      { id: 'c', at: '2026-02-03', by: '', kind: 'correction', corrects: 'a', value: -1e-7 },
    ];
    expect(valueOf(await store.addEntries(RUN, sent, 'R. T.'))).toEqual({
      acknowledged: [
        { id: 'a', seq: 1 },
        { id: 'b', seq: 2 },
        { id: 'c', seq: 3 },
      ],
    });
    const kept = await store.entries(RUN);
    expect(kept.map(({ entry }) => entry)).toEqual(sent);
    expect((await store.entries(RUN, 2)).map(({ seq }) => seq)).toEqual([3]);
    expect((await store.run(RUN))?.entries).toBe(3);
    expect((await store.receipts(RUN, 2)).map((each) => each.receivedBy)).toEqual([
      'R. T.',
      'R. T.',
    ]);
  });

  it('have ids as a database can hold them, and are known by them again', async () => {
    const store = await begun();
    const torn = { ...net('torn \uD800 \u0000'), text: 'a' };
    const first = valueOf(await store.addEntries(RUN, [torn, torn], 'R. T.'));
    expect(valueOf(await store.addEntries(RUN, [torn], 'R. T.'))).toEqual({
      acknowledged: [first.acknowledged[0]],
    });
    const other = { ...torn, id: 'torn \uFFFD \uFFFD' };
    expect(codeOf(await store.addEntries(RUN, [net('b'), other], 'R. T.'))).toBe('entry-differs');
    expect((await store.entries(RUN)).map(({ entry }) => entry)).toEqual([torn]);
  });

  it('that come again are acknowledged again, whatever the order of their fields', async () => {
    const store = await begun();
    valueOf(await store.addEntries(RUN, [net('a'), net('b')], 'R. T.'));
    const turned = Object.fromEntries(Object.entries(net('a')).reverse()) as BenchEntry;
    const again = valueOf(await store.addEntries(RUN, [net('c'), turned, net('c')], 'R. T.'));
    expect(again.acknowledged).toEqual([
      { id: 'c', seq: 3 },
      { id: 'a', seq: 1 },
      { id: 'c', seq: 3 },
    ]);
    expect(await store.entries(RUN)).toHaveLength(3);
  });

  it('that differ under one id are refused with everything that was sent with them', async () => {
    const store = await begun();
    valueOf(await store.addEntries(RUN, [net('a')], 'R. T.'));
    const before = await store.entries(RUN);
    for (const sent of [
      [net('b'), net('a', 2)],
      [net('c', 1), net('c', 2)],
    ])
      expect(codeOf(await store.addEntries(RUN, sent, 'R. T.'))).toBe('entry-differs');
    expect(codeOf(await store.addEntries('no-such-run', [net('d')], 'R. T.'))).toBe('run-unknown');
    expect(await store.entries(RUN)).toEqual(before);
  });

  it('may have the same id in two runs', async () => {
    const store = await begun();
    await begin(store, 'run-of-bench-2');
    const [one, two] = await Promise.all([
      store.addEntries(RUN, [net('a', 1)], 'R. T.'),
      store.addEntries('run-of-bench-2', [net('a', 2)], 'M. O.'),
    ]);
    const seqs = [one, two].map((answer) => valueOf(answer).acknowledged[0]!.seq);
    expect(seqs).toEqual([1, 2]);
    expect((await store.entries('run-of-bench-2'))[0]!.entry.value).toBe(2);
  });

  it('that are refused do not keep others from the commit that they share', async () => {
    const store = await begun();
    valueOf(await store.addEntries(RUN, [net('a')], 'R. T.'));
    const calls = Array.from({ length: 40 }, (_, i) =>
      i % 4 === 0
        ? store.addEntries(RUN, [net(`x${i}`), net('a', 99)], 'R. T.')
        : store.addEntries(RUN, [net(`y${i}`), net(`z${i}`)], 'R. T.'),
    );
    const codes = (await Promise.all(calls)).map(codeOf);
    expect(codes.filter((code) => code === 'entry-differs')).toHaveLength(10);
    expect(codes.filter((code) => code === 'kept')).toHaveLength(30);
    const kept = await store.entries(RUN);
    expect(kept.map(({ seq }) => seq)).toEqual(Array.from({ length: 61 }, (_, i) => i + 1));
    expect(kept.some(({ entry }) => entry.id.startsWith('x'))).toBe(false);
  });

  it('are many in one call, and more than one commit takes', async () => {
    const store = await begun();
    const many = (letter: string, count: number) =>
      Array.from({ length: count }, (_, i) => net(`${letter}${i}`));
    const answers = await Promise.all([
      store.addEntries(RUN, many('a', 2600), 'R. T.'),
      store.addEntries(RUN, many('b', 1500), 'R. T.'),
      store.addEntries(RUN, many('c', 1500), 'R. T.'),
      store.addEntries(RUN, [], 'R. T.'),
    ]);
    expect(answers.map((answer) => valueOf(answer).acknowledged.length)).toEqual([
      2600, 1500, 1500, 0,
    ]);
    expect(await store.entries(RUN, 5000)).toHaveLength(600);
  });

  it('are heard of once each, in order, by whoever listens to their run', async () => {
    const store = await begun();
    await begin(store, 'run-of-bench-2');
    const heard: KeptEntry[] = [];
    const end = store.onEntries(RUN, (kept) => heard.push(...kept));
    await Promise.all([
      store.addEntries(RUN, [net('a'), net('b')], 'R. T.'),
      store.addEntries('run-of-bench-2', [net('c')], 'R. T.'),
      store.addEntries(RUN, [net('a'), net('d')], 'R. T.'),
      store.addEntries(RUN, [net('e'), net('a', 2)], 'R. T.'),
    ]);
    expect(heard).toEqual(await store.entries(RUN));
    expect(heard.map(({ entry }) => entry.id)).toEqual(['a', 'b', 'd']);
    end();
    await store.addEntries(RUN, [net('f')], 'R. T.');
    expect(heard).toHaveLength(3);
  });

  it('that were asked for before the store is closed are kept', async () => {
    const where = await place();
    const store = await where.open();
    await begin(store);
    const asked = store.addEntries(RUN, [net('a')], 'R. T.');
    await store.close();
    expect(codeOf(await asked)).toBe('kept');
    expect(codeOf(await store.addEntries(RUN, [net('b')], 'R. T.'))).toBe('store-closed');
    expect((await (await where.open()).entries(RUN)).map(({ entry }) => entry.id)).toEqual(['a']);
  });
});

interface Sent {
  readonly run: string;
  readonly entries: readonly BenchEntry[];
}

const RUNS = ['run-of-bench-1', 'run-of-bench-2'];
const sentCalls = fc.array(
  fc.record({
    run: fc.constantFrom(...RUNS, 'no-such-run'),
    entries: fc.array(
      fc
        .record({ id: fc.constantFrom('a', 'b', 'c', 'd', 'e', 'f'), value: fc.nat(1) })
        .map(({ id, value }) => net(id, value)),
      { maxLength: 4 },
    ),
  }),
  { maxLength: 20 },
);

/** What should be kept: one call after the other, each whole or not at all. */
function expected(calls: readonly Sent[]) {
  const kept = new Map<string, string>();
  const ids = new Map<string, string[]>(RUNS.map((run) => [run, []]));
  const answers = calls.map(({ run, entries }) => {
    if (!ids.has(run)) return 'run-unknown';
    const next = new Map(kept);
    const fresh: string[] = [];
    for (const entry of entries) {
      const key = `${run} ${entry.id}`;
      const before = next.get(key);
      if (before !== undefined && before !== entryText(entry)) return 'entry-differs';
      if (before === undefined) fresh.push(entry.id);
      next.set(key, entryText(entry));
    }
    for (const [key, text] of next) kept.set(key, text);
    ids.get(run)!.push(...fresh);
    return 'kept';
  });
  return { answers, ids };
}

forEachKind('any calls', ({ kind, place }) => {
  it('sent at once, or in two halves, are answered and kept as one after the other', async () => {
    const store = await (await place()).open();
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    let time = 0;
    let last = 0;
    await fc.assert(
      fc.asyncProperty(sentCalls, share, async (calls, at) => {
        // Runs of its own each time: a new store would cost more than all that is asked of it.
        const turn = time++;
        const own = (run: string) => `${run}-${turn}`;
        for (const run of RUNS) await begin(store, own(run));
        const half = Math.floor(at * calls.length);
        const answers: string[] = [];
        for (const part of [calls.slice(0, half), calls.slice(half)]) {
          const asked = part.map(({ run, entries }) =>
            store.addEntries(own(run), entries, 'R. T.'),
          );
          answers.push(...(await Promise.all(asked)).map(codeOf));
        }
        const model = expected(calls);
        expect(answers).toEqual(model.answers);
        const seqs: number[] = [];
        for (const run of RUNS) {
          const kept = await store.entries(own(run));
          expect(kept.map(({ entry }) => entry.id)).toEqual(model.ids.get(run));
          seqs.push(...kept.map(({ seq }) => seq));
        }
        seqs.sort((a, b) => a - b);
        expect(seqs).toEqual(seqs.map((_, i) => last + i + 1));
        last = seqs.at(-1) ?? last;
      }),
      { numRuns: kind === 'sqlite' ? 60 : 30 },
    );
  });
});

/** Asks for what came after the last it has, over and over, as a page that was away does. */
async function follow(store: Store, done: () => boolean): Promise<string[]> {
  const ids: string[] = [];
  let after = 0;
  for (let last = false; ;) {
    const next = await store.entries(RUN, after);
    ids.push(...next.map(({ entry }) => entry.id));
    after = next.at(-1)?.seq ?? after;
    if (last) return ids;
    last = done();
    await new Promise((resolve) => setImmediate(resolve));
  }
}

async function writeAndFollow(stores: readonly Store[]): Promise<void> {
  await begin(stores[0]!);
  let working = true;
  const followers = stores.map((store) => follow(store, () => !working));
  const writers = Array.from({ length: 12 }, async (_, w) => {
    for (let i = 0; i < 25; i++)
      valueOf(await stores[w % stores.length]!.addEntries(RUN, [net(`${w}-${i}`)], 'R. T.'));
  });
  await Promise.all(writers);
  working = false;
  const all = (await stores[0]!.entries(RUN)).map(({ entry }) => entry.id);
  expect(all).toHaveLength(300);
  for (const follower of followers) expect(await follower).toEqual(all);
}

forEachKind('a reader', ({ place }) => {
  it('that goes on from the last number misses nothing', async () => {
    await writeAndFollow([await (await place()).open()]);
  });
});

onPostgres('two processes', () => {
  it('that write at once leave no number for a reader to miss', async () => {
    const url = await postgresUrl();
    const stores = [
      valueOf(await openPostgresStore(url)),
      valueOf(await openPostgresStore(url)),
      valueOf(await openPostgresStore(url)),
    ];
    later(() => Promise.all(stores.map((store) => store.close())));
    await writeAndFollow(stores);
  });
});

const FORBIDDEN = [
  "update entries set content = '{}'",
  'delete from entries',
  "update documents set text = ''",
  'delete from documents',
  "update attachments set media_type = 'text/plain'",
  'delete from attachments',
  "update runs set bench = 'another'",
  "update versions set saved_by = 'another'",
  'delete from versions',
];

const BYTES = new TextEncoder().encode('abc');
/** Of "abc": FIPS 180-4, example. */
const HASH = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';

async function filled(store: Store): Promise<void> {
  await begin(store);
  valueOf(await store.addEntries(RUN, [net('a')], 'R. T.'));
  valueOf(await store.addAttachment({ hash: HASH, mediaType: 'image/png', bytes: BYTES }));
}

describe('whatever writes to the tables', () => {
  it('only adds: SQLite', async () => {
    const folder = newFolder();
    await filled(await (await sqlitePlace(folder)).open());
    const database = new Database(`${folder}/weighboat.sqlite`);
    later(() => database.close());
    for (const text of FORBIDDEN)
      expect(() => database.prepare(text).run(), text).toThrow('are only ever added');
  });
});

onPostgres('whatever writes to the tables only adds', () => {
  it.each([...FORBIDDEN, 'truncate entries cascade'])('%s', async (text) => {
    const url = await postgresUrl();
    const store = valueOf(await openPostgresStore(url));
    later(() => store.close());
    await filled(store);
    await expect(askPostgres(url, text)).rejects.toThrow('are only ever added');
  });
});

forEachKind('attachments', ({ place }) => {
  it('are kept once under the hash of their bytes', async () => {
    const store = await (await place()).open();
    const given = { hash: HASH, mediaType: 'image/png', bytes: BYTES };
    expect(valueOf(await store.addAttachment(given))).toEqual({ hash: HASH });
    expect(valueOf(await store.addAttachment({ ...given, mediaType: 'text/plain' }))).toEqual({
      hash: HASH,
    });
    const kept = (await store.attachment(HASH))!;
    expect({ ...kept, bytes: [...kept.bytes] }).toEqual({ ...given, bytes: [...BYTES] });
    expect(await store.isEmpty()).toBe(false);
  });

  it('are refused where the hash is that of something else', async () => {
    const store = await (await place()).open();
    const given = { hash: HASH, mediaType: 'image/png', bytes: new Uint8Array([1]) };
    expect(codeOf(await store.addAttachment(given))).toBe('attachment-differs');
    expect(await store.attachment(HASH)).toBeUndefined();
  });
});
