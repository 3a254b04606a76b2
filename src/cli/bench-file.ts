import type { Enactment } from '../core/enact/enactment.ts';
import { enact } from '../core/enact/enact.ts';
import { actualsOf } from '../core/record/actuals.ts';
import { readCsvRecord } from '../core/record/csv.ts';
import { foldRecord } from '../core/record/fold.ts';
import { readJsonRecord } from '../core/record/json.ts';
import type { BenchRun, RecordDiagnostic } from '../core/record/run.ts';
import { refusal } from './command.ts';
import type { Answer } from './command.ts';
import type { Opened } from './experiment-file.ts';
import { readText } from './file-text.ts';
import type { Io } from './io.ts';
import { harmless } from './paint/text.ts';

/** A bench record put in place of the plan. */
export interface Bench {
  readonly path: string;
  readonly text: string;
  readonly run: BenchRun;
  readonly enactment: Enactment;
  /** Of the file and of the fold. */
  readonly diagnostics: readonly RecordDiagnostic[];
  readonly remarks: readonly string[];
}

export type BenchOpening =
  { readonly ok: true; readonly bench: Bench } | { readonly ok: false; readonly answer: Answer };

/** Reads a record, JSON where it begins like JSON and a table otherwise, and enacts it. */
export async function openBench(opened: Opened, path: string, io: Io): Promise<BenchOpening> {
  const reading = await readText(path, io);
  if (!reading.ok) return { ok: false, answer: refusal(reading.message, reading.hint) };
  const text = harmless(reading.text.replace(/^\ufeff/, ''));
  const intake = /^\s*[[{]/.test(text) ? readJsonRecord(text) : readCsvRecord(text);
  if (intake.entries.length === 0) {
    const [first] = intake.diagnostics;
    const message = first?.message ?? `${harmless(path)} holds no entries.`;
    return { ok: false, answer: refusal(message, first?.hint ?? EXAMPLE) };
  }
  const run = foldRecord(intake.entries, opened.experiment, opened.version);
  const bench: Bench = {
    path,
    text,
    run,
    enactment: enact(opened.program, opened.table, undefined, actualsOf(run)),
    diagnostics: [...intake.diagnostics, ...run.diagnostics],
    remarks: reading.remark === undefined ? [] : [reading.remark],
  };
  return { ok: true, bench };
}

const EXAMPLE = 'A record begins with a line such as: kind,step,item,vessel,value,unit';
