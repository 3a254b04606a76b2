import type { BenchEntry, EntryKind } from '../../core/record/entry.ts';
import type { BenchRun } from '../../core/record/run.ts';
import { evidenceFile, evidenceTitle } from '../words/evidence-words.ts';
import { asWritten } from './entered.ts';
import type { DecimalSign } from './figures.ts';

/** What was seen, timed or measured beside the weighings. */
export interface Seen {
  readonly entry: BenchEntry;
  readonly what: string;
  readonly struck?: string;
}

const SAYS: Readonly<Partial<Record<EntryKind, (value: string, entry: BenchEntry) => string>>> = {
  observation: (_value, { text }) => text ?? '',
  time: (_value, { text }) => text ?? 'Time noted.',
  temperature: (value, entry) => withText(`Temperature ${value}`, entry),
  meltingRange: (value, entry) =>
    withText(
      `Melting range ${value}${entry.vessel === undefined ? '' : ` (${entry.vessel})`}`,
      entry,
    ),
  evidence: (_value, { evidence }) =>
    evidence === undefined
      ? ''
      : `${[evidenceTitle(evidence), evidenceFile(evidence)].filter((word) => word !== '').join(', ')}.`,
  lot: (value, { item, text, value: assay }) =>
    [`Lot of ${item ?? 'a material'}`, text ?? '', assay === undefined ? '' : `assay ${value}`]
      .filter((each) => each !== '')
      .join(', '),
};

const withText = (said: string, { text }: BenchEntry) =>
  text === undefined || text === '' ? `${said}.` : `${said}. ${text}`;

/** In the order of the record; struck ones with the reason. */
export function seenIn(run: BenchRun, decimal: DecimalSign): Seen[] {
  const standing = [
    ...run.observations,
    ...run.times,
    ...[...run.temperatures, ...run.meltingRanges].map(({ entry }) => entry),
    ...run.evidence.map(({ entry }) => entry),
    ...run.lots.flatMap(({ entry }) => run.entries.find(({ id }) => id === entry) ?? []),
  ];
  const order = new Map(run.entries.map(({ id }, i) => [id, i]));
  const reasons = new Map(run.entries.map(({ id, text }) => [id, text ?? '']));
  const struck = run.struck.filter(({ entry }) => SAYS[entry.kind] !== undefined);
  const told = [
    ...standing.map((entry) => ({ entry, what: sayingOf(entry, decimal) })),
    ...struck.map(({ entry, by }) => ({
      entry,
      what: sayingOf(entry, decimal),
      struck: reasons.get(by) || 'no reason was given',
    })),
  ];
  return told.sort((a, b) => (order.get(a.entry.id) ?? 0) - (order.get(b.entry.id) ?? 0));
}

function sayingOf(entry: BenchEntry, decimal: DecimalSign): string {
  return SAYS[entry.kind]?.(asWritten(entry, decimal), entry) ?? '';
}

/** Photographs that an entry names by the hash of their bytes. */
export function photographsOf({ attachments = [], evidence }: BenchEntry): readonly string[] {
  // A plate of TLC may come with its picture; the file of a spectrometer is none
  return evidence === undefined || evidence.technique === 'thinLayer' ? attachments : [];
}
