import type { BenchEntry } from './entry.ts';
import type { RecordDiagnostic } from './run.ts';
import { benchEntrySchema } from './schema.ts';

/** What was read from outside: the entries that could be read, and what to say of the others. */
export interface Intake {
  readonly entries: readonly BenchEntry[];
  readonly diagnostics: readonly RecordDiagnostic[];
}

export const RECORD_LIMIT_BYTES = 5_000_000;
export const RECORD_LIMIT_ENTRIES = 20_000;

/** UTF-8 takes at least one byte for each unit of a text: more units than bytes allowed is enough. */
export function tooLarge(text: string): Intake | undefined {
  if (text.length <= RECORD_LIMIT_BYTES) return undefined;
  const message = 'The record is larger than 5 MB and is not read.';
  const hint = 'Split it: one record for each bench.';
  return {
    entries: [],
    diagnostics: [{ code: 'record-too-large', severity: 'error', message, hint }],
  };
}

/** A piece of a file that should be an entry. */
export interface Candidate {
  /** As it was written. */
  readonly text: string;
  readonly line?: number;
  readonly read: () =>
    { readonly fields: unknown } | { readonly problem: string; readonly hint: string };
}

/** Reads candidates one by one; one that fails does not take the others with it. */
export function collect(
  candidates: readonly Candidate[],
  diagnostics: readonly RecordDiagnostic[] = [],
): Intake {
  if (candidates.length > RECORD_LIMIT_ENTRIES) return tooMany(candidates.length, diagnostics);
  const entries: BenchEntry[] = [];
  const said = [...diagnostics];
  for (const candidate of candidates) {
    const read = candidate.read();
    if ('problem' in read) {
      said.push(unreadable(candidate, read.problem, read.hint));
      continue;
    }
    const parsed = benchEntrySchema.safeParse(read.fields);
    if (parsed.success) entries.push(parsed.data);
    else {
      const [issue] = parsed.error.issues;
      const field = issue?.path.join('.') ?? '';
      const problem = field === '' ? 'is no entry' : `has a "${field}" that cannot be used`;
      said.push(unreadable(candidate, problem, issue?.message ?? ''));
    }
  }
  return { entries, diagnostics: said };
}

function tooMany(count: number, diagnostics: readonly RecordDiagnostic[]): Intake {
  const message = `The record has ${count} entries; more than ${RECORD_LIMIT_ENTRIES} are not read.`;
  const hint = 'Split it: one record for each bench.';
  return {
    entries: [],
    diagnostics: [...diagnostics, { code: 'record-too-large', severity: 'error', message, hint }],
  };
}

function unreadable(candidate: Candidate, problem: string, hint: string): RecordDiagnostic {
  const where = candidate.line === undefined ? 'An entry' : `Line ${candidate.line}`;
  return {
    code: 'record-unreadable',
    severity: 'error',
    message: `${where} ${problem}; it is not counted.`,
    hint,
    text: candidate.text,
    ...(candidate.line === undefined ? {} : { at: { line: candidate.line, column: 1 } }),
  };
}
