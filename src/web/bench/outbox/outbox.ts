import type { BenchEntry } from '../../../core/record/entry.ts';
import { contentOf } from '../../../core/record/order.ts';
import type { Refusal } from '../../../wire/common.ts';
import type { KeptEntry } from '../../../wire/run.ts';
import type { BenchDatabase, Opened, Waiting, WaitingFile } from './database.ts';

/** What a bench record consists of on this device. */
export interface OnDevice {
  readonly opened?: Opened;
  readonly held: readonly BenchEntry[];
  /** In the order of writing. */
  readonly waiting: readonly Waiting[];
  readonly files: readonly WaitingFile[];
  /** Runs with entries that wait on this device, besides this one. */
  readonly elsewhere: readonly string[];
}

export async function readDevice(database: BenchDatabase, run: string): Promise<OnDevice> {
  const trx = database.transaction(['opened', 'held', 'waiting', 'files']);
  const [opened, held, all, files] = await Promise.all([
    trx.objectStore('opened').get(run),
    trx.objectStore('held').index('run').getAll(run),
    trx.objectStore('waiting').getAll(),
    trx.objectStore('files').index('run').getAll(run),
  ]);
  const others = all.filter((each) => each.run !== run).map((each) => each.run);
  return {
    ...(opened !== undefined && { opened }),
    held: held.map((each) => each.entry),
    waiting: all.filter((each) => each.run === run),
    files,
    elsewhere: [...new Set(others)],
  };
}

/**
 * Resolves when the entry, with the photos that it names, is on the device's disk; only then may the
 * page show it as entered. Rejects where the device has no room.
 */
export async function putInOutbox(
  database: BenchDatabase,
  run: string,
  entry: BenchEntry,
  files: readonly Omit<WaitingFile, 'run'>[] = [],
): Promise<void> {
  const trx = database.transaction(['waiting', 'files'], 'readwrite', { durability: 'strict' });
  const put = [
    ...files.map((file) => trx.objectStore('files').put({ ...file, run })),
    trx.objectStore('waiting').add({ run, id: entry.id, entry }),
    trx.done,
  ];
  await Promise.all(put);
}

/** The server said that it has these: from now on they are held, not waiting, in one transaction. */
export async function acknowledge(
  database: BenchDatabase,
  run: string,
  ids: readonly string[],
): Promise<void> {
  const trx = database.transaction(['held', 'waiting', 'files'], 'readwrite', {
    durability: 'strict',
  });
  const waiting = trx.objectStore('waiting');
  const held = trx.objectStore('held');
  for (const id of ids) {
    const found = await waiting.index('id').get([run, id]);
    if (found === undefined) continue;
    if ((await held.get([run, id])) === undefined) await held.put({ run, id, entry: found.entry });
    await waiting.delete(found.order!);
    for (const hash of found.entry.attachments ?? [])
      await dropSent(trx.objectStore('files'), hash);
  }
  await trx.done;
}

interface FilesStore {
  get(hash: string): Promise<WaitingFile | undefined>;
  delete(hash: string): Promise<void>;
}

async function dropSent(files: FilesStore, hash: string): Promise<void> {
  const file = await files.get(hash);
  if (file?.sent) await files.delete(hash);
}

/** The server would not take it: it stays, with the reason, and is not sent again by itself. */
export async function refuse(
  database: BenchDatabase,
  run: string,
  id: string,
  refusal: Refusal,
): Promise<void> {
  const trx = database.transaction('waiting', 'readwrite');
  const found = await trx.store.index('id').get([run, id]);
  if (found !== undefined) await trx.store.put({ ...found, refusal });
  await trx.done;
}

/** What was refused is sent once more: the person asked for it. */
export async function tryAgain(database: BenchDatabase, run: string): Promise<void> {
  const trx = database.transaction(['waiting', 'files'], 'readwrite');
  const waiting = trx.objectStore('waiting');
  for (const { refusal, ...rest } of await waiting.index('run').getAll(run))
    if (refusal !== undefined) await waiting.put(rest);
  const files = trx.objectStore('files');
  for (const { refusal, ...rest } of await files.index('run').getAll(run))
    if (refusal !== undefined) await files.put(rest);
  await trx.done;
}

/**
 * What the server has of this record: everything up to `heardSeq`. An entry of this device that
 * comes back as it was written is no longer waiting.
 */
export async function hear(
  database: BenchDatabase,
  run: string,
  kept: readonly KeptEntry[],
  opened: (before: Opened | undefined) => Opened | undefined,
): Promise<void> {
  const trx = database.transaction(['opened', 'held', 'waiting', 'files'], 'readwrite');
  const waiting = trx.objectStore('waiting');
  for (const { entry } of kept) {
    await trx.objectStore('held').put({ run, id: entry.id, entry });
    const own = await waiting.index('id').get([run, entry.id]);
    if (own === undefined || contentOf(own.entry) !== contentOf(entry)) continue;
    await waiting.delete(own.order!);
    for (const hash of entry.attachments ?? []) await dropSent(trx.objectStore('files'), hash);
  }
  const known = opened(await trx.objectStore('opened').get(run));
  if (known !== undefined) await trx.objectStore('opened').put(known, run);
  await trx.done;
}
