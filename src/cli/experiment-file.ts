import { tableWith } from '../core/chemistry/substance.ts';
import type { SubstanceTable } from '../core/chemistry/substance.ts';
import type { Diagnostic } from '../core/diagnostic.ts';
import { enact } from '../core/enact/enact.ts';
import type { Enactment } from '../core/enact/enactment.ts';
import type { Program } from '../core/enact/program.ts';
import { programOf } from '../core/enact/program.ts';
import { readExperiment } from '../core/experiment/read.ts';
import type { Experiment } from '../core/experiment/step.ts';
import { versionOf } from '../core/experiment/version.ts';
import { withoutDoubles } from '../core/report/result/result.ts';
import { refusal } from './command.ts';
import type { Answer } from './command.ts';
import { readText } from './file-text.ts';
import type { Io } from './io.ts';
import { harmless } from './paint/text.ts';

/** An experiment read from a file and enacted as planned. */
export interface Opened {
  readonly path: string;
  readonly text: string;
  readonly version: string;
  readonly experiment: Experiment;
  readonly program: Program;
  readonly table: SubstanceTable;
  readonly plan: Enactment;
  /** Of the reading and of the plan, each once. */
  readonly diagnostics: readonly Diagnostic[];
  readonly remarks: readonly string[];
}

export type Opening =
  { readonly ok: true; readonly opened: Opened } | { readonly ok: false; readonly answer: Answer };

export async function openExperiment(path: string, io: Io): Promise<Opening> {
  const reading = await readText(path, io);
  if (!reading.ok) return { ok: false, answer: refusal(reading.message, reading.hint) };
  const text = harmless(reading.text.replace(/^\ufeff/, ''));
  if (text.trim() === '')
    return {
      ok: false,
      answer: refusal(`${path === '-' ? 'The standard input' : path} is empty.`),
    };
  const experiment = readExperiment(text);
  const program = programOf(experiment);
  const table = tableWith(experiment.substances);
  const plan = enact(program, table);
  const opened: Opened = {
    path,
    text,
    version: await versionOf(text),
    experiment,
    program,
    table,
    plan,
    diagnostics: withoutDoubles(experiment.diagnostics, plan.diagnostics),
    remarks: reading.remark === undefined ? [] : [reading.remark],
  };
  return { ok: true, opened };
}

/** What every `--json` of an experiment begins with. */
export function documentOf({ path, version, experiment }: Opened) {
  return { file: path, title: experiment.title, version };
}

/** "Title, version 1a2b3c4d": the hash's beginning is enough for people. */
export function titleLine({ experiment, version }: Opened): string {
  return `${experiment.title === '' ? 'Untitled' : experiment.title} · version ${version.slice(0, 8)}`;
}
