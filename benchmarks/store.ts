import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import pg from 'pg';
import type { BenchEntry } from '../src/core/record/entry.ts';
import { entryText } from '../src/store/entries.ts';
import { openPostgresStore } from '../src/store/postgres.ts';
import { openSqliteStore } from '../src/store/sqlite.ts';
import type { Kept, Store } from '../src/store/store.ts';
import { root } from './files.ts';
import type { Item } from './item.ts';
import { timeText } from './item.ts';
import { median, quantile } from './measure.ts';

const CLIENTS = 200;
const ENTRIES = 10_000;
const ROUNDS = 5;
/** Each waits for the disk, so that fewer tell as much. */
const ALONE = 500;
const RUN = 'run-of-bench-1';

function valueOf<T>(answer: Kept<T>): T {
  if (!answer.ok) throw new Error(answer.refusal.message);
  return answer.value;
}

function entryOf(id: string): BenchEntry {
  return {
    id,
    at: '2026-02-03T10:00:00.000Z',
    by: 'R. T.',
    kind: 'gross',
    step: '19',
    vessel: 'flask',
    value: 45.3391,
    unit: 'g',
    instrument: 'balance 2 (0.001 g)',
  };
}

async function begin(store: Store): Promise<void> {
  const given = { id: 'experiment-1', text: '# A benchmark\n' };
  const { head } = valueOf(await store.addExperiment(given, 'R. T.'));
  const run = { id: RUN, experiment: given.id, document: head.document, bench: 'Bench 1' };
  valueOf(await store.addRun(run));
}

interface Round {
  readonly whole_ms: number;
  /** From each entry sent to its acknowledgement. */
  readonly waits_ms: readonly number[];
}

/** Every client sends its next entry when the last is acknowledged, as a bench does. */
async function clientsWrite(store: Store, round: number): Promise<Round> {
  const waits_ms: number[] = [];
  let next = 0;
  async function client(): Promise<void> {
    while (next < ENTRIES) {
      const entry = entryOf(`${round}-${next++}`);
      const sent = performance.now();
      valueOf(await store.addEntries(RUN, [entry], 'R. T.'));
      waits_ms.push(performance.now() - sent);
    }
  }
  const begun = performance.now();
  await Promise.all(Array.from({ length: CLIENTS }, client));
  return { whole_ms: performance.now() - begun, waits_ms };
}

async function roundsOf(store: Store): Promise<Round[]> {
  await begin(store);
  await clientsWrite(store, 0);
  const rounds: Round[] = [];
  for (let n = 1; n <= ROUNDS; n++) rounds.push(await clientsWrite(store, n));
  return rounds;
}

function itemOf(where: string, rounds: readonly Round[], baseline: Item['baseline']): Item {
  const waits_ms = rounds.flatMap((round) => round.waits_ms);
  const times_ms = rounds.map(({ whole_ms }) => whole_ms);
  const rate = Math.round(ENTRIES / (median(times_ms) / 1000));
  return {
    what: `${ENTRIES.toLocaleString('en')} entries kept in ${where}, each on the disk before it is acknowledged, ${CLIENTS} clients`,
    times_ms,
    budget_ms: ENTRIES / 2,
    baseline,
    remarks: [
      `${rate.toLocaleString('en')} entries a second. A client waits ${timeText(median(waits_ms))}, ` +
        `99th percentile ${timeText(quantile(waits_ms, 0.99))}, longest ${timeText(quantile(waits_ms, 1))}.`,
    ],
  };
}

/** What SQLite does when nobody asks anything: rows of the same size through a prepared statement. */
function rawSqlite(folder: string) {
  const database = new Database(join(folder, 'raw.sqlite'));
  database.pragma('journal_mode = wal');
  database.pragma('synchronous = full');
  database.exec(`create table entries (seq integer primary key, run text, id text, content text,
    received_at text, received_by text, unique (run, id))`);
  const insert = database.prepare('insert into entries values (null, ?, ?, ?, ?, ?)');
  const many = database.transaction((first: number, count: number) => {
    for (let i = first; i < first + count; i++) {
      const entry = entryOf(`raw-${i}`);
      insert.run(RUN, entry.id, entryText(entry), entry.at, entry.by);
    }
  });
  let written = 0;
  const write = (rows: number, rowsAtOnce: number): number => {
    const begun = performance.now();
    for (let i = 0; i < rows; i += rowsAtOnce) {
      many(written, rowsAtOnce);
      written += rowsAtOnce;
    }
    return performance.now() - begun;
  };
  const batches_ms = Array.from({ length: ROUNDS }, () => write(ENTRIES, CLIENTS));
  const alone_ms = write(ALONE, 1) / ALONE;
  database.close();
  return { batches_ms, alone_ms };
}

async function inSqlite(): Promise<Item> {
  // Beside the program: a folder for temporary files may be in memory, where nothing is ever synced.
  const folder = mkdtempSync(join(root, 'node_modules', '.store-benchmark-'));
  try {
    const store = valueOf(await openSqliteStore(folder));
    const rounds = await roundsOf(store);
    await store.close();
    const { batches_ms, alone_ms } = rawSqlite(folder);
    const item = itemOf('SQLite', rounds, {
      what: `a prepared statement of SQLite alone, ${CLIENTS} rows a transaction`,
      times_ms: batches_ms,
    });
    const rate = Math.round(1000 / alone_ms).toLocaleString('en');
    const remark = `One row a transaction, SQLite alone keeps ${rate} a second (${timeText(alone_ms)} each).`;
    return { ...item, remarks: [...item.remarks, remark] };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function rawPostgres(client: pg.Client): Promise<number[]> {
  await client.query(`create table raw (seq bigserial primary key, run text, id text, content text,
    received_at text, received_by text, unique (run, id))`);
  const places = Array.from(
    { length: CLIENTS },
    (_, i) => `(${[1, 2, 3, 4, 5].map((n) => `$${5 * i + n}`).join()})`,
  );
  const insert = `insert into raw (run, id, content, received_at, received_by) values ${places.join()}`;
  const times_ms: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    const begun = performance.now();
    for (let i = 0; i < ENTRIES; i += CLIENTS) {
      const entries = Array.from({ length: CLIENTS }, (_, n) => entryOf(`${round}-${i + n}`));
      await client.query(
        insert,
        entries.flatMap((entry) => [RUN, entry.id, entryText(entry), entry.at, entry.by]),
      );
    }
    times_ms.push(performance.now() - begun);
  }
  return times_ms;
}

async function inPostgres(url: string): Promise<Item> {
  const schema = `benchmark_${process.pid}`;
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  await client.query(`create schema ${schema}`);
  try {
    await client.query(`set search_path to ${schema}`);
    const own = new URL(url);
    own.searchParams.set('options', `-c search_path=${schema}`);
    const store = valueOf(await openPostgresStore(own.href));
    const rounds = await roundsOf(store);
    await store.close();
    return itemOf('PostgreSQL', rounds, {
      what: `an insert of PostgreSQL alone, ${CLIENTS} rows each`,
      times_ms: await rawPostgres(client),
    });
  } finally {
    await client.query(`drop schema ${schema} cascade`);
    await client.end();
  }
}

/** Entries of many benches at once, each acknowledged when it is on the disk. */
export async function storeEntries(): Promise<Item[]> {
  const items = [await inSqlite()];
  const url = process.env['TEST_DATABASE_URL'];
  if (url !== undefined) items.push(await inPostgres(url));
  return items;
}
