import { closeSync, existsSync, fsyncSync, mkdirSync, openSync } from 'node:fs';
import { dirname, resolve } from 'node:path';

/**
 * Makes a folder with those above it, for its owner alone. Step by step: Node's own recursive way goes
 * round for ever where a system lets nobody make a folder but says that one is missing (/proc).
 */
export function makeFolder(path: string): void {
  const missing: string[] = [];
  for (let at = resolve(path); !existsSync(at) && dirname(at) !== at; at = dirname(at))
    missing.unshift(at);
  for (const each of missing) {
    try {
      mkdirSync(each, { mode: 0o700 });
    } catch (error) {
      // Another process may have made it meanwhile.
      if (!existsSync(each)) throw error;
    }
  }
}

/** What is written of a file is on the disk when this returns. */
export function syncFile(path: string): void {
  sync(path, 'r+');
}

/** Which names a folder holds is on the disk when this returns. Windows sees to that by itself. */
export function syncFolder(path: string): void {
  if (process.platform !== 'win32') sync(path, 'r');
}

function sync(path: string, flags: string): void {
  const file = openSync(path, flags);
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}
