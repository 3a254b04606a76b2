import { copyFileSync, existsSync, linkSync, mkdirSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { snapshot } from './backup.ts';
import { systemNow } from './connection.ts';
import type { StoreOptions } from './connection.ts';
import { syncFile, syncFolder } from './files.ts';
import { takeFolder } from './lock.ts';
import { keeping, kept } from './refusal.ts';
import type { Kept } from './store.ts';
import { STORE_FILE } from './store-file.ts';
import { verify } from './verify.ts';

export interface Restored {
  /** The folder with the store that was there before; null where there was none. */
  readonly setAside: string | null;
}

/**
 * Puts a backup in a folder as its store. Read through before and after it is copied; a store that
 * is there already is set aside in a folder of its own, and is there whole until the other has taken
 * its place. Refuses a folder that a process has open.
 */
export async function restoreFrom(
  backup: string,
  folder: string,
  { now = systemNow }: StoreOptions = {},
): Promise<Kept<Restored>> {
  return keeping(async () => {
    const verified = verify(backup);
    if (!verified.ok) return verified;
    const taken = takeFolder(folder);
    if (!taken.ok) return taken;
    const unlock = taken.value;
    const arriving = join(folder, 'arriving.sqlite');
    try {
      rmSync(arriving, { force: true });
      snapshot(backup, arriving);
      syncFile(arriving);
      const copied = verify(arriving);
      if (!copied.ok) return copied;
      const setAside = setStoreAside(folder, now());
      renameSync(arriving, join(folder, STORE_FILE));
      syncFolder(folder);
      return kept({ setAside });
    } finally {
      for (const end of ['', '-wal', '-shm', '-journal']) rmSync(arriving + end, { force: true });
      unlock();
    }
  });
}

/** The log of a store goes with it, and may not be there when another store takes its name. */
function setStoreAside(folder: string, now: string): string | null {
  const file = join(folder, STORE_FILE);
  const names = ['', '-wal', '-shm'].map((end) => STORE_FILE + end);
  if (!existsSync(file)) {
    for (const name of names) rmSync(join(folder, name), { force: true });
    return null;
  }
  writeLogIntoFile(file);
  const aside = unusedName(join(folder, `set-aside-${now.slice(0, 19).replaceAll(':', '-')}`));
  mkdirSync(aside, { mode: 0o700 });
  for (const name of names)
    if (existsSync(join(folder, name))) secondName(join(folder, name), join(aside, name));
  syncFolder(aside);
  syncFolder(folder);
  for (const name of names.slice(1)) rmSync(join(folder, name), { force: true });
  return aside;
}

/** A store that is too damaged for it is set aside as it is, with its log. */
function writeLogIntoFile(file: string): void {
  try {
    const database = new Database(file);
    try {
      database.pragma('wal_checkpoint(truncate)');
    } finally {
      database.close();
    }
  } catch {
    return;
  }
}

function secondName(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch {
    copyFileSync(from, to);
    syncFile(to);
  }
}

function unusedName(wanted: string): string {
  let name = wanted;
  for (let n = 2; existsSync(name); n++) name = `${wanted}-${n}`;
  return name;
}
