import { closeSync, fsyncSync, openSync } from 'node:fs';

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
