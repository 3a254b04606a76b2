import { existsSync, linkSync, renameSync, rmSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { makeFolder, syncFile, syncFolder } from './files.ts';
import { keeping, kept, refusalError, refusalOf, refused } from './refusal.ts';
import type { Kept } from './store.ts';
import { STORE_FILE } from './store-file.ts';
import { verify } from './verify.ts';

/**
 * A backup of the store in a folder, whether or not another process works with it: one moment of it,
 * in one file. Never writes over a file.
 */
export async function backUpFolder(folder: string, path: string): Promise<Kept<null>> {
  const file = join(folder, STORE_FILE);
  if (!existsSync(file))
    return refused(
      'store-missing',
      `There is no store in the folder ${folder}.`,
      'Name the folder that Weighboat was started with.',
    );
  return keeping(async () => {
    await writeBackup(path, async (to) => snapshot(file, to));
    return kept(null);
  });
}

/** One moment of a store with its log, as one file; whoever writes to it goes on meanwhile. */
export function snapshot(file: string, to: string): void {
  const database = new Database(file, { readonly: true, fileMustExist: true, timeout: 30_000 });
  try {
    database.prepare('vacuum into ?').run(to);
  } finally {
    database.close();
  }
}

/** Written under another name and read through before it gets its own, so that a backup is whole. */
export async function writeBackup(
  given: string,
  write: (to: string) => Promise<void>,
): Promise<void> {
  const path = resolve(given);
  if (existsSync(path)) throw fileThere(path);
  makePlace(path);
  const unfinished = `${path}.${process.pid}.unfinished`;
  try {
    await write(unfinished);
    toOneFile(unfinished);
    const verified = verify(unfinished);
    if (!verified.ok) throw refusalError(verified.refusal);
    syncFile(unfinished);
    giveName(unfinished, path);
    syncFolder(dirname(path));
  } finally {
    for (const end of ['', '-wal', '-shm', '-journal']) rmSync(unfinished + end, { force: true });
  }
}

function makePlace(path: string): void {
  try {
    makeFolder(dirname(path));
  } catch (error) {
    if (refusalOf(error)?.code === 'disk-full') throw error;
    throw refusalError({
      code: 'folder-unusable',
      message: `The folder of ${path} cannot be made.`,
      hint: 'Give the backup a name in a folder that is there and may be written to.',
    });
  }
}

/** A copy says in its header that a log goes with it; this one shall stand alone. */
function toOneFile(path: string): void {
  const database = new Database(path);
  database.pragma('journal_mode = delete');
  database.close();
}

/**
 * A second name for the file fails where the name is taken; renaming would write over it. A disk
 * that knows no second names (a memory stick) leaves only the renaming.
 */
function giveName(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch {
    if (existsSync(to)) throw fileThere(to);
    renameSync(from, to);
  }
}

function fileThere(path: string): Error {
  return refusalError({
    code: 'file-exists',
    message: `${path} is there already, and a backup never writes over a file.`,
    hint: 'Give the backup another name.',
  });
}
