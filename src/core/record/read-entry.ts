import type { AmountKind } from '../quantity/amount-model.ts';
import type { BenchEntry } from './entry.ts';
import { writtenDecimals } from './entry.ts';
import type { Reading, RecordDiagnostic } from './run.ts';
import { inBase, KIND_WORDS, lastDigit, unitOf } from './unit.ts';

export type ReadingKind = Reading['kind'];

/** A number with a unit of one of these kinds, or the reason why it is none. */
export function readReading(
  entry: BenchEntry,
  kinds: readonly ReadingKind[],
): { readonly reading: Reading } | { readonly diagnostic: RecordDiagnostic } {
  const wanted = kinds.map((kind) => KIND_WORDS[kind] ?? kind).join(' or ');
  if (entry.value === undefined) {
    return refuse(entry, 'entry-empty', `has no value`, `A ${entry.kind} is ${wanted}.`);
  }
  if (entry.unit === undefined || entry.unit.trim() === '') {
    return refuse(entry, 'entry-unit', 'has no unit', `Write the unit: ${wanted} is expected.`);
  }
  const unit = unitOf(entry.unit);
  if (unit === undefined || !isKind(kinds, unit.kind)) {
    const what = unit === undefined ? 'is no unit that is known' : `is ${measures(unit.kind)}`;
    const hint = `A ${entry.kind} here is ${wanted}; correct the unit.`;
    return refuse(entry, 'entry-unit', `is in "${entry.unit}", which ${what}`, hint);
  }
  const value = inBase(entry.value, unit);
  if (value < 0 && unit.kind !== 'temperature') {
    const hint = 'Correct it: tare and gross may have changed places.';
    return refuse(entry, 'entry-negative', 'is less than nothing', hint);
  }
  const reading: Reading = {
    id: entry.id,
    entry,
    kind: unit.kind as ReadingKind,
    value,
    lastDigit: lastDigit(writtenDecimals(entry), unit),
    ...(entry.high === undefined ? {} : { high: inBase(entry.high, unit) }),
    ...(entry.instrument === undefined ? {} : { instrument: entry.instrument }),
  };
  return { reading };
}

function isKind(kinds: readonly ReadingKind[], kind: AmountKind): boolean {
  return (kinds as readonly AmountKind[]).includes(kind);
}

function measures(kind: AmountKind): string {
  return KIND_WORDS[kind] ?? 'a unit of something else';
}

function refuse(
  entry: BenchEntry,
  code: string,
  what: string,
  hint: string,
): { readonly diagnostic: RecordDiagnostic } {
  const value = entry.value === undefined ? '' : ` (${entry.value} ${entry.unit ?? ''})`;
  const message = `The ${entry.kind} in entry "${entry.id}"${value.replace(' )', ')')} ${what}.`;
  return { diagnostic: { code, severity: 'warning', message, hint, entry: entry.id } };
}
