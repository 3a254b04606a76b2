import type { Enactment } from '../core/enact/enactment.ts';
import { openBench } from './bench-file.ts';
import type { Bench } from './bench-file.ts';
import { optionText, refusal } from './command.ts';
import type { Answer, Call, OptionSpec } from './command.ts';
import { openExperiment } from './experiment-file.ts';
import type { Opened } from './experiment-file.ts';
import { count } from './paint/text.ts';

export const RECORD_OPTION: OptionSpec = {
  type: 'string',
  value: 'FILE',
  about: 'With what a bench measured (CSV or JSON) in place of the plan.',
};

export interface Asked {
  readonly opened: Opened;
  readonly bench?: Bench;
  /** The bench's run where a record was given, else the plan. */
  readonly run: Enactment;
  readonly remarks: readonly string[];
}

/** The experiment that a command names, and its bench record where one is given. */
export async function openAsked(
  call: Call,
): Promise<
  { readonly ok: true; readonly asked: Asked } | { readonly ok: false; readonly answer: Answer }
> {
  const path = call.args[0]!;
  const record = optionText(call, 'record');
  if (path === '-' && record === '-')
    return { ok: false, answer: refusal('Only one of the two can come from the standard input.') };
  const opening = await openExperiment(path, call.io);
  if (!opening.ok) return opening;
  const { opened } = opening;
  if (record === undefined)
    return { ok: true, asked: { opened, run: opened.plan, remarks: opened.remarks } };
  const reading = await openBench(opened, record, call.io);
  if (!reading.ok) return reading;
  const { bench } = reading;
  const remarks = [...opened.remarks, ...bench.remarks];
  return { ok: true, asked: { opened, bench, run: bench.enactment, remarks } };
}

/** Errors in the document or the record end a command with 1, whatever it could still answer. */
export function hasErrors({ opened, bench }: Asked): boolean {
  const all = [...opened.diagnostics, ...(bench?.diagnostics ?? [])];
  return all.some((one) => one.severity === 'error');
}

/** A line to lead from any answer to what is doubtful about it. */
export function doubtLine({ opened }: Asked): string {
  const errors = opened.diagnostics.filter((one) => one.severity === 'error').length;
  const remarks = opened.diagnostics.length - errors;
  if (errors + remarks === 0) return '';
  const what = errors > 0 ? count(errors, 'error') : count(remarks, 'remark');
  return `${what} on this document: weighboat check says which.`;
}
