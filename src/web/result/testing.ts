import { readCsvRecord } from '../../core/record/csv.ts';
import type { BenchEntry } from '../../core/record/entry.ts';
import type { RunOpened } from '../../wire/run.ts';

const FILES = import.meta.glob<string>('../../../examples/*/*.{md,csv}', {
  query: '?raw',
  import: 'default',
  eager: true,
});

function fileOf(example: string, start: string): string {
  const path = Object.keys(FILES).find((each) => each.includes(`/${example}/${start}`));
  return FILES[path ?? '']!;
}

const DOCUMENT = 'd'.repeat(64);

/** An example's bench as the server would open it: `bench` is the number in the file's name. */
export function openedRun(
  example: string,
  bench: number,
  changed: (entries: readonly BenchEntry[], text: string) => Partial<OpenedOf> = () => ({}),
): RunOpened {
  const read = {
    text: fileOf(example, 'experiment.md'),
    entries: readCsvRecord(fileOf(example, `bench-${bench}-`)).entries,
  };
  const { text, entries } = { ...read, ...changed(read.entries, read.text) };
  return {
    id: 'run00001',
    experiment: 'experiment1',
    document: DOCUMENT,
    versionNumber: 3,
    title: example,
    bench: 'Bench 4',
    startedAt: '2025-10-14T13:00:00.000Z',
    entries: entries.length,
    text,
    kept: entries.map((entry, i) => ({
      seq: i + 1,
      receivedAt: '2025-10-14T13:00:00.000Z',
      entry,
    })),
  };
}

interface OpenedOf {
  readonly text: string;
  readonly entries: readonly BenchEntry[];
}
