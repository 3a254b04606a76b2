import { randomBytes } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { afterEach, describe } from 'vitest';
import type { StoreOptions } from '../connection.ts';
import { openPostgresStore } from '../postgres.ts';
import { openSqliteStore } from '../sqlite.ts';
import type { Kept, Store } from '../store.ts';
import { valueOf } from './value-of.ts';

/** A place for one store: it can be opened, closed and opened again. */
export interface Place {
  open(options?: StoreOptions): Promise<Store>;
}

interface Kind {
  readonly kind: Store['kind'];
  /** A new empty place; what it took is given back after the test. */
  readonly place: () => Promise<Place>;
}

export const DATABASE_URL = process.env['TEST_DATABASE_URL'];

const leftovers: (() => unknown)[] = [];

/** Done after the test, the last first. */
export function later(work: () => unknown): void {
  leftovers.push(work);
}

afterEach(async () => {
  for (const work of leftovers.splice(0).reverse()) await work();
});

export function newFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'weighboat-test-'));
  later(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

function placeOf(open: (options?: StoreOptions) => Promise<Kept<Store>>): Place {
  return {
    async open(options) {
      const store = valueOf(await open(options));
      later(() => store.close());
      return store;
    },
  };
}

export async function sqlitePlace(folder = newFolder()): Promise<Place> {
  return placeOf((options) => openSqliteStore(folder, options));
}

/** A schema of its own in the database for tests. */
export async function postgresUrl(): Promise<string> {
  const schema = `test_${randomBytes(8).toString('hex')}`;
  const url = new URL(DATABASE_URL!);
  await askPostgres(DATABASE_URL!, `create schema ${schema}`);
  later(() => askPostgres(DATABASE_URL!, `drop schema ${schema} cascade`));
  url.searchParams.set('options', `-c search_path=${schema}`);
  return url.href;
}

export async function askPostgres(url: string, text: string): Promise<pg.QueryResult> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return await client.query(text);
  } finally {
    await client.end();
  }
}

async function postgresPlace(): Promise<Place> {
  const url = await postgresUrl();
  return placeOf((options) => openPostgresStore(url, options));
}

/** The same tests for both databases; the second only where there is one. */
export function forEachKind(name: string, tests: (kind: Kind) => void): void {
  describe(`${name}, SQLite`, () => tests({ kind: 'sqlite', place: () => sqlitePlace() }));
  onPostgres(name, () => tests({ kind: 'postgres', place: postgresPlace }));
}

/** Says in the name of what is left out why it is. */
export function onPostgres(name: string, tests: () => void): void {
  if (DATABASE_URL === undefined)
    describe.skip(`${name}, PostgreSQL (left out: TEST_DATABASE_URL is not set)`, tests);
  else describe(`${name}, PostgreSQL`, tests);
}
