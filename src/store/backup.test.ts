import { cpSync, readdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { sha256 } from './attachments.ts';
import { backUpFolder } from './backup.ts';
import { openPostgresStore } from './postgres.ts';
import { refusalOf } from './refusal.ts';
import { restoreFrom } from './restore.ts';
import { openSqliteStore } from './sqlite.ts';
import type { Store } from './store.ts';
import { later, newFolder, onPostgres, postgresUrl, sqlitePlace } from './testing/kinds.ts';
import { begin, net, RUN } from './testing/pieces.ts';
import { codeOf, valueOf } from './testing/value-of.ts';

const idsOf = async (store: Store) => (await store.entries(RUN)).map(({ entry }) => entry.id);
const refusedWith = (code: string) => (error: unknown) => expect(refusalOf(error)?.code).toBe(code);

/** A store with one entry, and room for backups beside it. */
async function begun() {
  const folder = newFolder();
  const place = await sqlitePlace(join(folder, 'store'));
  const store = await place.open();
  await begin(store);
  valueOf(await store.addEntries(RUN, [net('a')], 'R. T.'));
  return {
    store,
    place,
    folder: join(folder, 'store'),
    path: (name: string) => join(folder, name),
  };
}

/** The ids in a backup that is put in an empty folder. */
async function idsIn(backup: string, folder: string): Promise<string[]> {
  expect(valueOf(await restoreFrom(backup, folder))).toEqual({ setAside: null });
  return idsOf(await (await sqlitePlace(folder)).open());
}

describe('a folder that cannot be made', () => {
  it('is said, and nobody waits for it', async () => {
    const file = join(newFolder(), 'a-file');
    writeFileSync(file, '');
    const { store, path, folder } = await begun();
    await store.backupTo(path('a.backup'));
    const wrong = [file, join(file, 'below'), ...(process.platform === 'linux' ? ['/proc/x'] : [])];
    for (const place of wrong) {
      expect(codeOf(await openSqliteStore(place))).toBe('folder-unusable');
      expect(codeOf(await restoreFrom(path('a.backup'), place))).toBe('folder-unusable');
      expect(codeOf(await backUpFolder(folder, join(place, 'below', 'a.backup')))).toBe(
        'folder-unusable',
      );
    }
    const deep = await openSqliteStore(path('a/b/c'));
    await valueOf(deep).close();
  });
});

describe('a backup', () => {
  it('of a store that is being written to holds everything acknowledged before it', async () => {
    const { store, path } = await begun();
    // More than one step of the copying, so that writing goes on between its parts.
    const bytes = new Uint8Array(3_000_000).fill(7);
    valueOf(await store.addAttachment({ hash: sha256(bytes), mediaType: 'image/png', bytes }));
    let working = true;
    let written = 0;
    const writer = (async () => {
      while (working)
        valueOf(await store.addEntries(RUN, [net(`w${written++}`), net(`v${written}`)], 'R. T.'));
    })();
    await store.backupTo(path('backup.sqlite'));
    working = false;
    await writer;
    expect(written).toBeGreaterThan(1);
    const ids = await idsIn(path('backup.sqlite'), path('other'));
    expect(ids).toEqual((await idsOf(store)).slice(0, ids.length));
    expect(ids.length % 2).toBe(1);
  });

  it('is taken of a folder that a process has open, and of one that none has', async () => {
    const { store, folder, path } = await begun();
    valueOf(await backUpFolder(folder, path('while.sqlite')));
    expect(await idsIn(path('while.sqlite'), path('one'))).toEqual(['a']);
    await store.close();
    valueOf(await backUpFolder(folder, path('after.sqlite')));
    expect(await idsIn(path('after.sqlite'), path('two'))).toEqual(['a']);
  });

  it('is one file, and leaves nothing else behind', async () => {
    const { store, folder, path } = await begun();
    await store.backupTo(path('new/one.sqlite'));
    valueOf(await backUpFolder(folder, path('new/two.sqlite')));
    expect(readdirSync(path('new'))).toEqual(['one.sqlite', 'two.sqlite']);
  });

  it('never writes over a file', async () => {
    const { store, folder, path } = await begun();
    writeFileSync(path('mine.txt'), 'mine');
    await store
      .backupTo(path('mine.txt'))
      .then(() => expect.fail('It wrote over a file.'), refusedWith('file-exists'));
    expect(codeOf(await backUpFolder(folder, path('mine.txt')))).toBe('file-exists');
    expect(readFileSync(path('mine.txt'), 'utf8')).toBe('mine');
  });

  it('of a folder without a store is refused, and none is made', async () => {
    const folder = newFolder();
    expect(codeOf(await backUpFolder(folder, join(folder, 'b.sqlite')))).toBe('store-missing');
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe('to restore', () => {
  it('sets the store that is there aside, whole', async () => {
    const { store, place, folder, path } = await begun();
    await store.backupTo(path('backup.sqlite'));
    valueOf(await store.addEntries(RUN, [net('later')], 'R. T.'));
    await store.close();
    const now = () => '2026-02-03T10:00:00.000Z';
    const first = valueOf(await restoreFrom(path('backup.sqlite'), folder, { now }));
    expect(first.setAside).toBe(join(folder, 'set-aside-2026-02-03T10-00-00'));
    const restored = await place.open();
    expect(await idsOf(restored)).toEqual(['a']);
    const before = await (await sqlitePlace(first.setAside!)).open();
    expect(await idsOf(before)).toEqual(['a', 'later']);
    await restored.close();
    const second = valueOf(await restoreFrom(path('backup.sqlite'), folder, { now }));
    expect(second.setAside).toBe(`${first.setAside}-2`);
    expect(await idsOf(await place.open())).toEqual(['a']);
  });

  it('sets a damaged store aside as it is', async () => {
    const { store, place, folder, path } = await begun();
    await store.backupTo(path('backup.sqlite'));
    await store.close();
    writeFileSync(join(folder, 'weighboat.sqlite'), 'no longer a store');
    const { setAside } = valueOf(await restoreFrom(path('backup.sqlite'), folder));
    expect(readFileSync(join(setAside!, 'weighboat.sqlite'), 'utf8')).toBe('no longer a store');
    expect(await idsOf(await place.open())).toEqual(['a']);
  });

  it('is refused while a process has the folder, which stays as it is', async () => {
    const { store, folder, path } = await begun();
    await store.backupTo(path('backup.sqlite'));
    valueOf(await store.addEntries(RUN, [net('b')], 'R. T.'));
    expect(codeOf(await restoreFrom(path('backup.sqlite'), folder))).toBe('store-in-use');
    expect(await idsOf(store)).toEqual(['a', 'b']);
  });

  it.each([
    ['a file that is something else', 'backup-strange', 'no backup', text],
    ['a file that is not there', 'backup-strange', 'no backup', nothing],
    ['a database of something else', 'backup-strange', 'no backup', strangeDatabase],
    ['a file that ends too soon', 'backup-damaged', 'backup', cut],
    ['a file with a part written over', 'backup-damaged', 'backup', scratch],
    ['a backup of a newer program', 'store-newer', 'backup', fromLater],
  ])('%s is refused, and nothing is moved', async (_name, code, from, spoil) => {
    const { store, folder, place, path } = await begun();
    if (from === 'backup') await store.backupTo(path('backup.sqlite'));
    spoil(path('backup.sqlite'));
    await store.close();
    const before = readdirSync(folder);
    expect(codeOf(await restoreFrom(path('backup.sqlite'), folder))).toBe(code);
    expect(readdirSync(folder)).toEqual(before);
    expect(await idsOf(await place.open())).toEqual(['a']);
  });

  it('takes a copy of a folder as well, with what stands only in its log', async () => {
    const { store, folder, path } = await begun();
    cpSync(folder, path('copy'), { recursive: true });
    await store.close();
    expect(await idsIn(path('copy/weighboat.sqlite'), path('other'))).toEqual(['a']);
  });
});

function text(path: string): void {
  writeFileSync(path, 'Not a store, though as long as one page of it. '.repeat(200));
}

function nothing(): void {}

function strangeDatabase(path: string): void {
  const database = new Database(path);
  database.exec('create table things (id integer)');
  database.close();
}

function cut(path: string): void {
  truncateSync(path, 50_000);
}

function scratch(path: string): void {
  const bytes = readFileSync(path);
  bytes.fill(0xaa, 8192, 40_000);
  writeFileSync(path, bytes);
}

function fromLater(path: string): void {
  const database = new Database(path);
  database.prepare("insert into migrations values (99, 'later', '2030-01-01')").run();
  database.close();
}

onPostgres('a backup', () => {
  it('is left to the tools of the database, and it is said which', async () => {
    const store = valueOf(await openPostgresStore(await postgresUrl()));
    later(() => store.close());
    await store
      .backupTo('/nowhere')
      .then(() => expect.fail('It made a backup.'), refusedWith('backup-elsewhere'));
  });
});

describe('a folder', () => {
  it('is let in one process at a time, and by the next when that has closed it', async () => {
    const { store, folder } = await begun();
    const second = await openSqliteStore(folder);
    expect(codeOf(second)).toBe('store-in-use');
    await store.close();
    expect(await idsOf(await (await sqlitePlace(folder)).open())).toEqual(['a']);
  });
});
