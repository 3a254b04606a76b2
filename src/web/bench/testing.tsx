import type { ReactNode } from 'react';
import { useMemo, useState } from 'react';
import type { BenchEntry } from '../../core/record/entry.ts';
import { DEFAULT_SETTINGS } from '../../wire/settings.ts';
import type { Settings } from '../../wire/settings.ts';
import type { NewFile } from './outbox/bench.ts';
import { RUN, SHEET } from './outbox/testing.ts';
import { placeLines } from './record/place.ts';
import { linesOf } from './record/standing.ts';
import { RecordProvider } from './record-context.ts';
import type { BenchField, BenchSheet, BenchStep } from './sheet.ts';

export const KETONE: BenchField = {
  key: 'charge 1.1',
  kind: 'charge',
  use: '1.1',
  item: '4-methylcyclohexanone',
  label: '4-methylcyclohexanone, weighed',
  counts: true,
  unit: 'g',
  planned: { value: 1.12, text: '1.12 g' },
  low: 0.56,
  high: 2.24,
  decimals: 3,
};

export function stepWith(...fields: readonly BenchField[]): BenchStep {
  return {
    id: '1',
    item: '1',
    section: null,
    sentence: 'Charge the flask with 4-methylcyclohexanone 1.12 g',
    cautions: [],
    fields,
  };
}

export interface Written {
  readonly entries: BenchEntry[];
  readonly files: NewFile[];
}

/** A record in memory around what is tested; what is entered is also put into `written`. */
export function RecordForTest({
  steps,
  written,
  given = [],
  settings = DEFAULT_SETTINGS,
  full = false,
  children,
}: {
  readonly steps: readonly BenchStep[];
  readonly written: Written;
  readonly given?: readonly BenchEntry[];
  readonly settings?: Settings;
  /** The device has no room. */
  readonly full?: boolean;
  readonly children: ReactNode;
}) {
  const [entries, setEntries] = useState<readonly BenchEntry[]>(given);
  const sheet: BenchSheet = useMemo(() => ({ ...SHEET, steps }), [steps]);
  const lines = linesOf(entries);
  return (
    <RecordProvider
      value={{
        run: {
          id: RUN,
          experiment: 'exp-00000001',
          document: 'd'.repeat(64),
          versionNumber: 1,
          title: SHEET.title,
          bench: 'Bench 4',
          startedAt: '2026-02-03T09:00:00.000Z',
          entries: 0,
        },
        sheet,
        settings,
        lines,
        placed: placeLines(lines, sheet),
        waiting: new Map(),
        files: [],
        writer: {
          run: { bench: 'Bench 4', document: 'd'.repeat(64) },
          by: 'RK',
          now: () => new Date(),
        },
        balance: 'balance 2',
        enter: async (entry, files = []) => {
          if (full) throw new DOMException('no room', 'QuotaExceededError');
          written.entries.push(entry);
          written.files.push(...files);
          setEntries((before) => [...before, entry]);
        },
      }}
    >
      {children}
    </RecordProvider>
  );
}
