import { openDB } from 'idb';
import type { DBSchema, IDBPDatabase } from 'idb';
import type { BenchEntry } from '../../../core/record/entry.ts';
import type { Refusal } from '../../../wire/common.ts';
import type { Run } from '../../../wire/run.ts';
import type { Settings } from '../../../wire/settings.ts';
import type { BenchSheet } from '../sheet.ts';

/** What this device knows of a bench record, so that it opens without a network. */
export interface Opened {
  readonly run: Run;
  readonly sheet: BenchSheet;
  readonly settings: Settings;
  /** The whole record up to this place was heard from the server. */
  readonly heardSeq: number;
}

/** An entry that the server has. */
export interface Held {
  readonly run: string;
  readonly id: string;
  readonly entry: BenchEntry;
}

/** An entry that the server does not have yet, or would not take. */
export interface Waiting {
  /** Counts up in the order of writing. */
  readonly order?: number;
  readonly run: string;
  readonly id: string;
  readonly entry: BenchEntry;
  readonly refusal?: Refusal;
}

/** A photo that the server does not have yet, or would not take. */
export interface WaitingFile {
  readonly hash: string;
  readonly run: string;
  readonly mediaType: string;
  readonly bytes: ArrayBuffer;
  /** The server has it; it stays here until its entry is there too, to be shown meanwhile. */
  readonly sent?: true;
  readonly refusal?: Refusal;
}

interface Schema extends DBSchema {
  opened: { key: string; value: Opened };
  held: { key: [string, string]; value: Held; indexes: { run: string } };
  waiting: {
    key: number;
    value: Waiting;
    indexes: { run: string; id: [string, string] };
  };
  files: { key: string; value: WaitingFile; indexes: { run: string } };
}

export type BenchDatabase = IDBPDatabase<Schema>;

/**
 * Everything that a bench record keeps on this device. `lost` is called where the browser cuts the
 * connection by itself, as some do to a page that was long in the background: it has to be opened again.
 */
export function openBenchDatabase(
  name = 'weighboat-bench',
  lost: () => void = () => {},
): Promise<BenchDatabase> {
  return openDB<Schema>(name, 1, {
    terminated: lost,
    upgrade(database) {
      database.createObjectStore('opened');
      database.createObjectStore('held', { keyPath: ['run', 'id'] }).createIndex('run', 'run');
      const waiting = database.createObjectStore('waiting', {
        keyPath: 'order',
        autoIncrement: true,
      });
      waiting.createIndex('run', 'run');
      waiting.createIndex('id', ['run', 'id'], { unique: true });
      database.createObjectStore('files', { keyPath: 'hash' }).createIndex('run', 'run');
    },
  });
}
