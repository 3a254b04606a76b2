import Database from 'better-sqlite3';
import { newer } from './migrate.ts';
import { APPLICATION_ID } from './migrations/0001-first.ts';
import { MIGRATIONS } from './migrations/index.ts';
import { kept, refused, refusalOf } from './refusal.ts';
import type { Kept } from './store.ts';

/** Reads every page of a file of a store: is it one, is it whole, does this program know its tables. */
export function verify(path: string): Kept<null> {
  let database: Database.Database | undefined;
  try {
    database = new Database(path, { readonly: true, fileMustExist: true });
    if (database.pragma('application_id', { simple: true }) !== APPLICATION_ID)
      return strange(path);
    const applied = Number(
      database.prepare('select coalesce(max(number), 0) from migrations').pluck().get(),
    );
    if (applied > MIGRATIONS.length) return newer(applied, MIGRATIONS.length);
    const whole = database.pragma('integrity_check', { simple: true }) === 'ok';
    const joined = (database.pragma('foreign_key_check') as unknown[]).length === 0;
    return whole && joined ? kept(null) : damaged(path);
  } catch (error) {
    const isDatabase = !(error instanceof Database.SqliteError && error.code === 'SQLITE_NOTADB');
    const isDamaged = isDatabase && refusalOf(error)?.code === 'store-damaged';
    return isDamaged ? damaged(path) : strange(path);
  } finally {
    database?.close();
  }
}

function strange(path: string): Kept<never> {
  return refused(
    'backup-strange',
    `${path} is not a backup of Weighboat, or cannot be read.`,
    'Choose a file that Weighboat wrote as a backup. Nothing was changed.',
  );
}

function damaged(path: string): Kept<never> {
  return refused(
    'backup-damaged',
    `${path} is damaged.`,
    'Choose another backup, or copy this one again from where it came. Nothing was changed.',
  );
}
