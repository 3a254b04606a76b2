import { createWriteStream } from 'node:fs';
import { readFile, rm, stat } from 'node:fs/promises';
import { pipeline } from 'node:stream/promises';
import { exportAll } from '../../store/transfer/export.ts';
import { IMPORT_LIMITS, importAll } from '../../store/transfer/import.ts';
import { refusal } from '../command.ts';
import type { Answer, Call } from '../command.ts';
import { done } from './done.ts';
import { placeOf, placeText, withStore } from './open-store.ts';

/** What a system says of a file, for a person. */
function troubleWith(path: string, error: unknown): Answer {
  const { code, message } = error as NodeJS.ErrnoException;
  if (code === 'EEXIST')
    return refusal(
      `${path} is there already, and an export never writes over a file.`,
      'Give the export another name.',
    );
  if (code === 'ENOENT') return refusal(`There is no file or folder for ${path}.`);
  if (code === 'EISDIR') return refusal(`${path} is a folder.`, 'Name a file in it.');
  if (code === 'EACCES' || code === 'EPERM') return refusal(`${path} may not be opened here.`);
  if (code === 'ENOSPC')
    return refusal(`There is no room left on the disk for ${path}.`, 'Make room, then try again.');
  return refusal(`${path} could not be read or written: ${message}`);
}

export function exportTo(call: Call): Promise<Answer> {
  const path = call.args[0]!;
  const place = placeOf(call);
  return withStore(place, async (store) => {
    try {
      await pipeline(exportAll(store), createWriteStream(path, { flags: 'wx', flush: true }));
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') await rm(path, { force: true });
      if (error instanceof Error && 'refusal' in error) throw error;
      return troubleWith(path, error);
    }
    const { size: size_bytes } = await stat(path);
    const size_kB = Math.ceil(size_bytes / 1000).toLocaleString('en');
    return done(
      { file: path, size_bytes },
      `Everything in ${placeText(place)} is now in ${path} as open files (${size_kB} kB).`,
    );
  });
}

export async function importFrom(call: Call): Promise<Answer> {
  const path = call.args[0]!;
  let bytes: Uint8Array;
  try {
    if ((await stat(path)).size > IMPORT_LIMITS.size_bytes)
      return refusal(`${path} is larger than any export that can be taken in.`);
    bytes = await readFile(path);
  } catch (error) {
    return troubleWith(path, error);
  }
  const place = placeOf(call);
  return withStore(place, async (store) => {
    const kept = await importAll(store, bytes);
    if (!kept.ok) return refusal(kept.refusal.message, kept.refusal.hint);
    const { experiments, runs, entries, attachments } = kept.value;
    return done(
      { file: path, ...kept.value },
      `${placeText(place)} now holds what was in ${path}: ` +
        `${experiments} experiments, ${runs} bench records with ${entries} entries, ${attachments} attachments.`,
    );
  });
}
