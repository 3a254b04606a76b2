import { join } from 'node:path';
import Database from 'better-sqlite3';
import { makeFolder } from './files.ts';
import { kept, refused, refusalOf } from './refusal.ts';
import type { Kept } from './store.ts';

/**
 * Makes a folder where there is none and keeps every other process out of it, until what is given
 * back is called. Refuses one that another process has, and what cannot be written to.
 */
export function takeFolder(folder: string): Kept<() => void> {
  try {
    makeFolder(folder);
    const unlock = lockFolder(folder);
    if (unlock !== undefined) return kept(unlock);
  } catch (error) {
    const isOfSystem = error instanceof Error && 'code' in error;
    if (!isOfSystem || refusalOf(error)?.code === 'disk-full') throw error;
    return refused(
      'folder-unusable',
      `${folder} cannot be made or used as a folder.`,
      'Is there a file of that name, or may you not write there? Name another: --folder',
    );
  }
  return refused(
    'store-in-use',
    `Another Weighboat uses the folder ${folder}.`,
    'Stop that one first, or choose another folder.',
  );
}

/**
 * Keeps a second process out of a folder for as long as this one lives. The lock is the operating
 * system's own, taken through an empty SQLite file, so that it goes when its process goes, however
 * that ends. Undefined: somebody else has it.
 */
function lockFolder(folder: string): (() => void) | undefined {
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
