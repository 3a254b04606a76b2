import type { BenchEntry } from '../../../core/record/entry.ts';
import { plainName } from '../../../core/record/near.ts';
import { asksFor } from './asked-file.ts';
import type { BenchField, BenchSheet, BenchStep } from '../sheet.ts';
import type { Line } from './standing.ts';

/** The lines of a step: at the fields that they fill, and what else was written there. */
export interface StepLines {
  readonly fields: readonly BenchField[];
  readonly byField: ReadonlyMap<string, readonly Line[]>;
  readonly times: readonly Line[];
  readonly others: readonly Line[];
}

export interface PlacedLines {
  readonly bySteps: ReadonlyMap<string, StepLines>;
  /** Lines that name no step, or none of this sheet. */
  readonly elsewhere: readonly Line[];
}

const NONE: StepLines = { fields: [], byField: new Map(), times: [], others: [] };

export const linesOfStep = (placed: PlacedLines, step: string): StepLines =>
  placed.bySteps.get(step) ?? NONE;

/** Whether an entry fills a field. What either of them leaves out is no difference. */
export function fills(entry: BenchEntry, field: BenchField): boolean {
  if (entry.evidence !== undefined) return asksFor(field, entry.evidence);
  return (
    entry.kind === field.kind &&
    same(entry.use, field.use) &&
    same(entry.vessel?.replace(/^the /i, ''), field.vessel) &&
    (entry.use !== undefined || same(entry.item, field.item)) &&
    (entry.n ?? 1) === (field.n ?? 1)
  );
}

function same(given: string | undefined, wanted: string | undefined): boolean {
  return given === undefined || wanted === undefined || plainName(given) === plainName(wanted);
}

/** Every line once: at a field of its step, or among the rest, so that nothing written is hidden. */
export function placeLines(lines: readonly Line[], sheet: BenchSheet): PlacedLines {
  const known = new Map(sheet.steps.map((step) => [plainName(step.id), step]));
  const byStep = new Map<string, Line[]>();
  const elsewhere: Line[] = [];
  for (const line of lines) {
    const step = known.get(plainName(line.entry.step ?? '').replace(/^step\s*/, ''));
    if (step === undefined) elsewhere.push(line);
    else if (byStep.has(step.id)) byStep.get(step.id)!.push(line);
    else byStep.set(step.id, [line]);
  }
  const bySteps = new Map(
    sheet.steps.map((step) => [step.id, atFields(byStep.get(step.id) ?? [], step)]),
  );
  return { bySteps, elsewhere };
}

/**
 * The fields of a step, and those of further weighings where its sheet lets more follow: always one
 * more than were made.
 */
export function fieldsOf(step: BenchStep, lines: readonly Line[]): readonly BenchField[] {
  return step.fields.flatMap((field): BenchField[] => {
    const { n = 1 } = field;
    if (field.again !== true) return [field];
    const made = lines
      .filter(({ entry, struck }) => struck === undefined && fills({ ...entry, n }, field))
      .map(({ entry }) => entry.n ?? 1);
    const last = Math.max(n - 1, ...made);
    return Array.from({ length: last - n + 2 }, (_, i) =>
      i === 0 ? field : { ...field, key: `${field.key}+${i}`, n: n + i, label: againLabel(field) },
    );
  });
}

/** A further weighing that may follow; nobody misses it. */
export const isExtra = ({ key }: BenchField): boolean => key.includes('+');

const againLabel = ({ vessel, label }: BenchField): string =>
  vessel === undefined ? label : `${vessel}, weighed again`;

function atFields(lines: readonly Line[], step: BenchStep): StepLines {
  const byField = new Map<string, Line[]>();
  const times: Line[] = [];
  const others: Line[] = [];
  const fields = fieldsOf(step, lines);
  for (const line of lines) {
    const field = fields.find((each) => fills(line.entry, each));
    if (field !== undefined) byField.set(field.key, [...(byField.get(field.key) ?? []), line]);
    else if (line.entry.kind === 'time') times.push(line);
    else others.push(line);
  }
  return { fields, byField, times, others };
}
