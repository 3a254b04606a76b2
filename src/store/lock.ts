import { join } from 'node:path';
import Database from 'better-sqlite3';

/**
 * Keeps a second process out of a folder for as long as this one lives. The lock is the operating
 * system's own, taken through an empty SQLite file, so that it goes when its process goes, however
 * that ends. Undefined: somebody else has it.
 */
export function lockFolder(folder: string): (() => void) | undefined {
  const file = new Database(join(folder, LOCK_FILE), { timeout: 0 });
  try {
    file.exec('begin exclusive');
  } catch (error) {
    file.close();
    if (isBusy(error)) return undefined;
    throw error;
  }
  return () => file.close();
}

const LOCK_FILE = 'in-use.sqlite';

function isBusy(error: unknown): boolean {
  return error instanceof Error && 'code' in error && error.code === 'SQLITE_BUSY';
}
