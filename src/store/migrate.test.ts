import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Database from 'better-sqlite3';
import { Kysely, sql, SqliteDialect } from 'kysely';
import { describe, expect, it } from 'vitest';
import { DEFAULT_SETTINGS } from '../wire/settings.ts';
import { migrate } from './migrate.ts';
import { MIGRATIONS } from './migrations/index.ts';
import type { Migration } from './migrations/migration.ts';
import { openPostgresStore } from './postgres.ts';
import { openSqliteStore } from './sqlite.ts';
import type { Store } from './store.ts';
import type { Tables } from './tables.ts';
import { dumpOf, tablesOf } from './testing/dump.ts';
import {
  askPostgres,
  later,
  newFolder,
  onPostgres,
  postgresUrl,
  sqlitePlace,
} from './testing/kinds.ts';
import { begin, EXPERIMENT, net, RUN, TEXT } from './testing/pieces.ts';
import { codeOf, valueOf } from './testing/value-of.ts';

const NOON = '2026-02-03T12:00:00.000Z';
const PERSON = { id: 'person-1', name: 'R. Tamsin' };
const SETTINGS = { ...DEFAULT_SETTINGS, paper: 'letter' } as const;
/** Of "abc": FIPS 180-4, example. */
const HASH = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';

const PRINT = {
  form: 1,
  fingerprint: Uint8Array.of(1, 2),
  bands: [{ position_percm: 1690, share: 1 }],
};

/** Something in every table. */
async function fill(store: Store): Promise<void> {
  const bytes = new TextEncoder().encode('abc');
  await store.addPerson(PERSON);
  await begin(store);
  const save = { text: '# Benzoic acid, again', base: 1, name: 'For the class' };
  valueOf(await store.addVersion(EXPERIMENT, save, 'R. T.'));
  valueOf(await store.addEntries(RUN, [net('a'), net('b', 2)], 'R. T.'));
  valueOf(await store.addAttachment({ hash: HASH, mediaType: 'image/png', bytes }));
  const given = {
    id: 'spectrum-1',
    name: 'benzoic acid',
    smiles: null,
    state: 'atr',
    file: HASH,
  } as const;
  valueOf(await store.addSpectrum(given, PRINT, 'R. T.'));
  await store.setSettings(SETTINGS);
  const token = { person: PERSON.id, role: 'bench', run: RUN, expiresAt: '2100-01-01' } as const;
  await store.addLink({ ...token, tokenHash: 'hash-1' });
  const session = { person: PERSON, role: 'bench', run: RUN } as const;
  await store.addSession({ tokenHash: 'hash-2', session, expiresAt: '2100-01-01' });
}

/** That what `fill` put in is there. */
async function expectFilled(store: Store, step = MIGRATIONS.length): Promise<void> {
  const spectra = (await store.spectra()).map(({ name, state }) => [name, state]);
  expect(spectra).toEqual(step >= 2 ? [['benzoic acid', 'atr']] : []);
  expect((await store.versions(EXPERIMENT)).map(({ name }) => name)).toEqual([
    'For the class',
    null,
  ]);
  expect((await store.version(EXPERIMENT, 1))?.text).toBe(TEXT);
  expect((await store.runs()).map(({ title }) => title)).toEqual(['Benzoic acid']);
  expect((await store.entries(RUN)).map(({ entry }) => entry)).toEqual([net('a'), net('b', 2)]);
  expect((await store.attachment(HASH))?.mediaType).toBe('image/png');
  expect(await store.settings()).toEqual(SETTINGS);
  expect((await store.session('hash-2', NOON))?.person).toEqual(PERSON);
}

function opened(folder: string): Database.Database {
  const database = new Database(join(folder, 'weighboat.sqlite'));
  later(() => database.close());
  return database;
}

async function newStore(): Promise<string> {
  const folder = newFolder();
  const store = await (await sqlitePlace(folder)).open({ now: () => NOON });
  await fill(store);
  await store.close();
  return folder;
}

const fixture = (number: number) =>
  fileURLToPath(new URL(`testing/tables-${number}.sql`, import.meta.url));

describe('the tables', () => {
  /**
   * After a new migration this writes its fixture, which is kept from then on:
   * npx vitest run --update=all src/store/migrate.test.ts
   * That of a migration which has been released never changes.
   */
  it('of the last step, filled, are those of its fixture', async () => {
    const dump = dumpOf(opened(await newStore()));
    await expect(dump).toMatchFileSnapshot(fixture(MIGRATIONS.length));
  });

  it('have a fixture for every step', () => {
    const names = readdirSync(new URL('testing/', import.meta.url));
    const fixtures = names.filter((name) => name.startsWith('tables-')).sort();
    expect(fixtures).toEqual(MIGRATIONS.map(({ number }) => `tables-${number}.sql`));
    expect(MIGRATIONS.map(({ number }) => number)).toEqual(MIGRATIONS.map((_, i) => i + 1));
  });

  it.each(MIGRATIONS.map(({ number }) => number))(
    'of step %i, filled, are brought to those of a new store',
    async (number) => {
      const folder = newFolder();
      const old = new Database(join(folder, 'weighboat.sqlite'));
      old.pragma('foreign_keys = off');
      old.exec(readFileSync(fixture(number), 'utf8'));
      old.close();
      const store = await (await sqlitePlace(folder)).open();
      await expectFilled(store, number);
      await store.close();
      expect(tablesOf(opened(folder))).toEqual(tablesOf(opened(await newStore())));
    },
  );

  it('of a newer program are refused, and left as they are', async () => {
    const folder = await newStore();
    const database = opened(folder);
    database.prepare("insert into migrations values (99, 'later', '2030-01-01')").run();
    const before = dumpOf(database);
    const answer = await openSqliteStore(folder);
    expect(codeOf(answer)).toBe('store-newer');
    expect(dumpOf(database)).toBe(before);
  });

  it('of some other program are refused, and left as they are', async () => {
    const folder = newFolder();
    const database = opened(folder);
    database.exec('create table things (id integer)');
    expect(codeOf(await openSqliteStore(folder))).toBe('store-strange');
    expect(Object.keys(tablesOf(database))).toEqual(['table things']);
  });

  it('are not looked for in a file that is none', async () => {
    const folder = newFolder();
    writeFileSync(join(folder, 'weighboat.sqlite'), 'no database '.repeat(1000));
    expect(codeOf(await openSqliteStore(folder))).toBe('store-damaged');
  });
});

onPostgres('the tables', () => {
  it('are made once, and those of a newer program are refused', async () => {
    const url = await postgresUrl();
    const first = valueOf(await openPostgresStore(url));
    await fill(first);
    await first.close();
    const again = valueOf(await openPostgresStore(url));
    await expectFilled(again);
    await again.close();
    await askPostgres(url, "insert into migrations values (99, 'later', '2030-01-01')");
    expect(codeOf(await openPostgresStore(url))).toBe('store-newer');
  });

  it('are made once by many who open it at once', async () => {
    const url = await postgresUrl();
    const answers = await Promise.all(Array.from({ length: 5 }, () => openPostgresStore(url)));
    await Promise.all(answers.map((answer) => valueOf(answer).close()));
    const { rows } = await askPostgres(url, 'select number from migrations');
    expect(rows).toEqual(MIGRATIONS.map(({ number }) => ({ number })));
  });

  it('of a database that is not there are refused kindly', async () => {
    const away = 'postgresql://tests@127.0.0.1:1/none';
    expect(codeOf(await openPostgresStore(away))).toBe('database-unreachable');
    const strange = new URL(await postgresUrl());
    strange.pathname = '/no_such_database';
    expect(codeOf(await openPostgresStore(strange.href))).toBe('database-refused');
  });
});

describe('a migration', () => {
  const step = (number: number, ...statements: string[]): Migration => ({
    number,
    name: `step ${number}`,
    statements: { sqlite: statements, postgres: statements },
  });
  const one = step(1, 'create table things (id integer)', 'insert into things values (1)');
  const two = step(2, 'alter table things add name text');
  const broken = step(2, 'insert into things values (2)', 'insert into nowhere values (1)');

  function emptyDatabase() {
    const database = new Database(':memory:');
    const db = new Kysely<Tables>({ dialect: new SqliteDialect({ database }) });
    later(() => db.destroy());
    const writing: Parameters<typeof migrate>[0]['writing'] = (work) =>
      db.transaction().execute(work);
    const things = async () => (await sql`select * from things`.execute(db)).rows;
    return {
      things,
      run: (steps: Migration[]) => migrate({ kind: 'sqlite', now: () => NOON, writing }, steps),
    };
  }

  it('is done once, after those before it', async () => {
    const { run, things } = emptyDatabase();
    expect(valueOf(await run([one]))).toBe(1);
    expect(valueOf(await run([one, two]))).toBe(1);
    expect(valueOf(await run([one, two]))).toBe(0);
    expect(await things()).toEqual([{ id: 1, name: null }]);
    expect(codeOf(await run([one]))).toBe('store-newer');
  });

  it('that fails leaves everything as it was', async () => {
    const { run, things } = emptyDatabase();
    await run([one]);
    await expect(run([one, broken])).rejects.toThrow('nowhere');
    expect(await things()).toEqual([{ id: 1 }]);
    expect(valueOf(await run([one, two]))).toBe(1);
  });
});
