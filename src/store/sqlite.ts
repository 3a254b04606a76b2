import { existsSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { Kysely, SqliteDialect } from 'kysely';
import type { Transaction } from 'kysely';
import { writeBackup } from './backup.ts';
import type { Connection, StoreOptions } from './connection.ts';
import { systemNow } from './connection.ts';
import { takeFolder } from './lock.ts';
import { migrate } from './migrate.ts';
import { APPLICATION_ID } from './migrations/0001-first.ts';
import { MIGRATIONS } from './migrations/index.ts';
import { keeping, kept, refused } from './refusal.ts';
import { storeOver } from './store-over.ts';
import type { Kept, Store } from './store.ts';
import { STORE_FILE } from './store-file.ts';
import type { Tables } from './tables.ts';

/**
 * The store in a folder, which is made where it is not there yet. Refuses a folder that another
 * process has open, a file that is no store, and a store of a newer program.
 */
export async function openSqliteStore(
  folder: string,
  options: StoreOptions = {},
): Promise<Kept<Store>> {
  return keeping(async () => {
    const taken = takeFolder(folder);
    if (!taken.ok) return taken;
    const unlock = taken.value;
    const opened = await keeping(() => connectSqlite(folder, unlock, options)).catch(
      (error: unknown) => {
        unlock();
        throw error;
      },
    );
    if (!opened.ok) {
      unlock();
      return opened;
    }
    return kept(storeOver(opened.value));
  });
}

async function connectSqlite(
  folder: string,
  unlock: () => void,
  { now = systemNow }: StoreOptions,
): Promise<Kept<Connection>> {
  const file = join(folder, STORE_FILE);
  const isNew = !existsSync(file);
  const database = new Database(file, { timeout: 5000 });
  try {
    if (!isNew && !isStore(database)) {
      database.close();
      return refused(
        'store-strange',
        `${file} is not a store of Weighboat.`,
        'Move it away, or choose another folder.',
      );
    }
    prepare(database);
  } catch (error) {
    database.close();
    throw error;
  }
  const connection = overDatabase(database, now, unlock);
  const migrated = await migrate(connection, MIGRATIONS);
  if (migrated.ok) return kept(connection);
  database.close();
  return migrated;
}

/** A file without any table counts: it was made, and its process ended before the first step. */
function isStore(database: Database.Database): boolean {
  if (database.pragma('application_id', { simple: true }) === APPLICATION_ID) return true;
  return database.prepare('select count(*) from sqlite_master').pluck().get() === 0;
}

/** Durable before it is acknowledged: in WAL, FULL syncs the log at every commit. */
function prepare(database: Database.Database): void {
  database.pragma('journal_mode = wal');
  database.pragma('synchronous = full');
  database.pragma('foreign_keys = on');
  database.pragma('recursive_triggers = on');
  database.pragma('trusted_schema = off');
  database.pragma('journal_size_limit = 67108864');
}

function overDatabase(
  database: Database.Database,
  now: () => string,
  unlock: () => void,
): Connection {
  const db = new Kysely<Tables>({
    dialect: new SqliteDialect({ database: withPreparedStatements(database) }),
  });
  const writing = <T>(work: (trx: Transaction<Tables>) => Promise<T>): Promise<T> =>
    db.transaction().execute(work);
  return {
    kind: 'sqlite',
    db,
    now,
    writing,
    reading: writing,
    backupTo: (path) => writeBackup(path, (to) => database.backup(to).then(() => undefined)),
    async close() {
      await db.destroy();
      unlock();
    },
  };
}

const STATEMENTS_KEPT = 300;

/** The same text is prepared once. And SQLite has rolled back by itself when a disk is full. */
function withPreparedStatements(database: Database.Database) {
  const prepared = new Map<string, Database.Statement>();
  return {
    prepare(text: string): Database.Statement {
      if (text === 'rollback' && !database.inTransaction) return database.prepare('select 1');
      const held = prepared.get(text);
      if (held !== undefined) return held;
      const made = database.prepare(text);
      if (prepared.size >= STATEMENTS_KEPT) prepared.delete(prepared.keys().next().value!);
      prepared.set(text, made);
      return made;
    },
    close: () => database.close(),
  };
}
