import type { BenchEntry } from '../../core/record/entry.ts';
import type { Intake } from '../../core/record/intake.ts';
import { versionOf } from '../../core/experiment/version.ts';
import type { RunOpened } from '../../wire/run.ts';

export type RecordForm = 'csv' | 'json';

/** The record as a file. The reader and printer of records come only when they are asked for. */
export async function recordText(
  entries: readonly BenchEntry[],
  form: RecordForm,
): Promise<string> {
  if (form === 'csv') return (await import('../../core/record/csv.ts')).printCsvRecord(entries);
  return (await import('../../core/record/json.ts')).printJsonRecord(entries);
}

/** "bench-4-cyclohexanol.csv", of letters that every system takes in a name. */
export function recordFileName({ bench, title }: RunOpened, form: RecordForm): string {
  const plain = `${bench} ${title}`
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');
  const short = plain.length > 60 ? plain.slice(0, 60).replace(/-[^-]*$/, '') : plain;
  return `${short || 'bench-record'}.${form}`;
}

/** What the reader puts in place of an id that a table does not have. */
const MADE_ID = /^row \d+$/;

/**
 * A record that was made elsewhere, JSON where it begins like JSON and a table otherwise. Ids that
 * the file lacks are made from its content, so that the same file added twice makes its lines once
 * and another file's lines do not run into them. Nothing else is
 * filled in: a line that was saved here comes back as the same line.
 */
export async function readRecordFile(text: string, changedAt: number): Promise<Intake> {
  const isJson = /^\s*[[{]/.test(text);
  const intake = isJson
    ? (await import('../../core/record/json.ts')).readJsonRecord(text)
    : (await import('../../core/record/csv.ts')).readCsvRecord(text, {
        startAt: new Date(changedAt).toISOString(),
      });
  const mark = (await versionOf(text)).slice(0, 12);
  const own = (id: string) => (MADE_ID.test(id) ? `${mark} ${id}` : id);
  return {
    ...intake,
    entries: intake.entries.map((entry) => ({
      ...entry,
      id: own(entry.id),
      ...(entry.corrects === undefined ? {} : { corrects: own(entry.corrects) }),
    })),
  };
}

/** As many as the server takes at once (MOST_ENTRIES_AT_ONCE of wire/run.ts). */
const AT_ONCE = 200;

export function inPortions(entries: readonly BenchEntry[]): BenchEntry[][] {
  const portions: BenchEntry[][] = [];
  for (let at = 0; at < entries.length; at += AT_ONCE)
    portions.push(entries.slice(at, at + AT_ONCE));
  return portions;
}
