import { createContext, useContext } from 'react';
import type { BenchEntry } from '../../core/record/entry.ts';
import type { Refusal } from '../../wire/common.ts';
import type { Run } from '../../wire/run.ts';
import type { Settings } from '../../wire/settings.ts';
import type { NewFile } from './outbox/bench.ts';
import type { WaitingFile } from './outbox/database.ts';
import type { Writer } from './record/new-entry.ts';
import type { PlacedLines } from './record/place.ts';
import type { Line } from './record/standing.ts';
import type { BenchSheet } from './sheet.ts';

/** The bench record that is open, and how to write into it. */
export interface BenchRecord {
  readonly run: Run;
  readonly sheet: BenchSheet;
  readonly settings: Settings;
  readonly lines: readonly Line[];
  readonly placed: PlacedLines;
  /** Entries that the server does not have; with a refusal where it would not take them. */
  readonly waiting: ReadonlyMap<string, Refusal | undefined>;
  readonly files: readonly WaitingFile[];
  readonly writer: Writer;
  /** The balance that was chosen, as an entry names it. */
  readonly balance: string | null;
  /** Resolves when the entry is on this device's disk; rejects with words where it cannot be kept. */
  readonly enter: (entry: BenchEntry, files?: readonly NewFile[]) => Promise<void>;
}

const Context = createContext<BenchRecord | undefined>(undefined);

export const RecordProvider = Context.Provider;

export function useRecord(): BenchRecord {
  const record = useContext(Context);
  if (record === undefined) throw new Error('no bench record is open here');
  return record;
}
