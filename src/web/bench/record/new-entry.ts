import type { EvidenceEntered } from '../../../core/evidence/schema.ts';
import type { BenchEntry } from '../../../core/record/entry.ts';
import type { Run } from '../../../wire/run.ts';
import { newId } from '../../ui/id.ts';
import type { BenchField } from '../sheet.ts';
import type { TypedNumber } from '../typed/typed-number.ts';

/** What every line of this device carries: who, where, which version, when. */
export interface Writer {
  readonly run: Pick<Run, 'bench' | 'document'>;
  readonly by: string;
  readonly now: () => Date;
}

export interface Readings extends TypedNumber {
  /** The upper end of a melting range. */
  readonly high?: number;
}

type Said = Omit<BenchEntry, 'id' | 'at' | 'by' | 'bench' | 'document'>;

function written({ run, by, now }: Writer, said: Said): BenchEntry {
  return {
    id: newId(),
    at: now().toISOString(),
    by,
    bench: run.bench,
    document: run.document,
    ...said,
  };
}

export function reading(
  writer: Writer,
  step: string,
  field: BenchField,
  readings: Readings,
  instrument?: string,
): BenchEntry {
  const { kind, use, item, vessel, n, unit } = field;
  return written(writer, {
    kind,
    step,
    ...(use !== undefined && { use }),
    ...(item !== undefined && { item }),
    ...(vessel !== undefined && { vessel }),
    ...readings,
    unit,
    ...(instrument !== undefined && { instrument }),
    ...(n !== undefined && { n }),
  });
}

export const STARTED = 'Started';
export const FINISHED = 'Finished';

export function stamp(writer: Writer, step: string, text: string): BenchEntry {
  return written(writer, { kind: 'time', step, text });
}

export function observation(
  writer: Writer,
  step: string,
  text: string,
  attachments: readonly string[] = [],
): BenchEntry {
  return written(writer, {
    kind: 'observation',
    step,
    text,
    ...(attachments.length > 0 && { attachments: [...attachments] }),
  });
}

/** A measurement of identity or purity, with the file that it was read from. */
export function evidence(
  writer: Writer,
  entered: EvidenceEntered,
  attachments: readonly string[],
  step: string | undefined,
): BenchEntry {
  return written(writer, {
    kind: 'evidence',
    ...(step !== undefined && { step }),
    evidence: entered,
    attachments: [...attachments],
  });
}

export function lot(writer: Writer, step: string, field: BenchField, text: string): BenchEntry {
  const { use, item } = field;
  return written(writer, {
    kind: 'lot',
    step,
    ...(use !== undefined && { use }),
    ...(item !== undefined && { item }),
    text,
  });
}

/** Another reading in the place of one that was wrong; the reason may be empty. */
export function correctedReading(
  writer: Writer,
  target: BenchEntry,
  readings: Readings,
  reason: string,
  instrument?: string,
): BenchEntry {
  return written(writer, {
    kind: 'correction',
    corrects: target.id,
    ...readings,
    ...(target.unit !== undefined && { unit: target.unit }),
    ...(instrument !== undefined && { instrument }),
    ...(reason !== '' && { text: reason }),
  });
}

/** Other words in the place of those of an observation or of a lot. */
export function correctedText(writer: Writer, target: BenchEntry, text: string): BenchEntry {
  return written(writer, { kind: 'correction', corrects: target.id, text });
}

/**
 * Says that a line does not count. In a line whose text is the record itself a reason would be
 * taken for other words of it, so there is none.
 */
export function withdrawal(writer: Writer, target: BenchEntry, reason: string): BenchEntry {
  return written(writer, {
    kind: 'correction',
    corrects: target.id,
    ...(reason !== '' && { text: reason }),
  });
}
