import type { Experiment, MaterialUse, Step } from '../experiment/step.ts';
import { chargesOf } from './charges.ts';
import type { ChargeReading } from './charges.ts';
import { applyCorrections } from './correct.ts';
import type { BenchEntry, EntryKind } from './entry.ts';
import { placesOf, placeStep, placeUse, placeVessel } from './place.ts';
import type { Places } from './place.ts';
import { readReading } from './read-entry.ts';
import type { BenchRun, Reading, RecordDiagnostic, RunEvidence, RunLot } from './run.ts';
import { uniqueInOrder } from './unique.ts';
import { weighingsOf } from './weighings.ts';
import type { VesselReading } from './weighings.ts';

/**
 * A spreadsheet drops the noughts at the end: a gross of 45.1 beside a tare of 44.2312 was read on
 * the same balance. Weighings of vessels that name no instrument share the finest last digit.
 */
function sameBalance(vessels: readonly VesselReading[]): VesselReading[] {
  const unnamed = vessels.filter(({ reading }) => reading.instrument === undefined);
  const finest = Math.min(...unnamed.map(({ reading }) => reading.lastDigit));
  return vessels.map((weighing) =>
    weighing.reading.instrument === undefined
      ? { ...weighing, reading: { ...weighing.reading, lastDigit: finest } }
      : weighing,
  );
}

/** What the entries were sorted into on the way; filled in one pass over the record. */
export interface Sorting {
  readonly places: Places;
  readonly charges: ChargeReading[];
  readonly vessels: VesselReading[];
  readonly lots: RunLot[];
  readonly times: BenchEntry[];
  readonly temperatures: Reading[];
  readonly meltingRanges: Reading[];
  readonly observations: BenchEntry[];
  readonly evidence: RunEvidence[];
  readonly diagnostics: RecordDiagnostic[];
}

/**
 * The state of one bench from its entries, in whatever order they came and however often.
 * Nothing is dropped: what cannot be counted stays in `entries` and is said in `diagnostics`.
 * `version` is the hash of the document that `experiment` was read from.
 */
export function foldRecord(
  entries: readonly BenchEntry[],
  experiment: Experiment,
  version?: string,
): BenchRun {
  const { counted, all, conflicts, diagnostics } = uniqueInOrder(entries);
  const corrected = applyCorrections(counted);
  const sorting: Sorting = {
    places: placesOf(experiment),
    charges: [],
    vessels: [],
    lots: [],
    times: [],
    temperatures: [],
    meltingRanges: [],
    observations: [],
    evidence: [],
    diagnostics: [...diagnostics, ...corrected.diagnostics, ...otherVersions(all, version)],
  };
  for (const entry of corrected.standing) SORT[entry.kind](entry, sorting);
  return {
    entries: all,
    struck: corrected.struck,
    conflicts,
    charges: chargesOf(sorting.charges, sorting.diagnostics),
    ...weighingsOf(sameBalance(sorting.vessels), sorting.places, sorting.diagnostics),
    lots: sorting.lots,
    times: sorting.times,
    temperatures: sorting.temperatures,
    meltingRanges: sorting.meltingRanges,
    observations: sorting.observations,
    evidence: sorting.evidence,
    diagnostics: sorting.diagnostics,
  };
}

/** One diagnostic for each other version, however many entries it has. */
function otherVersions(all: readonly BenchEntry[], version?: string): RecordDiagnostic[] {
  if (version === undefined) return [];
  const counts = new Map<string, number>();
  for (const { document } of all) {
    if (document === undefined || document === '' || document === version) continue;
    counts.set(document, (counts.get(document) ?? 0) + 1);
  }
  return [...counts].map(([document, count]) => ({
    code: 'entry-other-version',
    severity: 'warning' as const,
    message: `${count === 1 ? '1 entry was' : `${count} entries were`} made with another version of the experiment (${document.slice(0, 12)}).`,
    hint: 'They are counted by their step numbers. Check that the steps are still the same, or read them with that version.',
  }));
}

const SORT: Readonly<Record<EntryKind, (entry: BenchEntry, into: Sorting) => void>> = {
  charge: sortCharge,
  tare: sortWeighing,
  gross: sortWeighing,
  net: sortWeighing,
  temperature: (entry, into) => keepReading(entry, into, 'temperature', into.temperatures),
  meltingRange: (entry, into) => keepReading(entry, into, 'temperature', into.meltingRanges),
  time: (entry, into) => {
    into.times.push(entry);
  },
  observation: (entry, into) => {
    into.observations.push(entry);
  },
  lot: sortLot,
  evidence: sortEvidence,
  correction: () => undefined,
};

function unplaced(entry: BenchEntry, lost: { message: string; hint: string }): RecordDiagnostic {
  return {
    code: 'entry-unplaced',
    severity: 'warning',
    message: `${lost.message} (Entry "${entry.id}".)`,
    hint: lost.hint,
    entry: entry.id,
  };
}

/** The step and the use that an entry means; undefined where it could not be placed, and said. */
function findUse(
  entry: BenchEntry,
  into: Sorting,
): { readonly step: Step; readonly use: MaterialUse } | undefined {
  const step = placeStep(into.places, entry);
  if (step.kind === 'lost') {
    into.diagnostics.push(unplaced(entry, step));
    return undefined;
  }
  const use = placeUse(into.places, entry, step.kind === 'found' ? step.value : undefined);
  if (use.kind === 'found') return use.value;
  if (use.kind === 'lost') into.diagnostics.push(unplaced(entry, use));
  return undefined;
}

function sortCharge(entry: BenchEntry, into: Sorting): void {
  const placed = findUse(entry, into);
  if (placed === undefined) return;
  const read = readReading(entry, isDrySolid(placed.use) ? ['mass'] : ['mass', 'volume']);
  if ('diagnostic' in read) into.diagnostics.push(read.diagnostic);
  else into.charges.push({ ...placed, role: 'direct', reading: read.reading });
}

/** A solid is weighed out; a volume of it is a slip of the unit. */
function isDrySolid({ material }: MaterialUse): boolean {
  return (
    material?.substance.state === 'solid' &&
    material.solvent === undefined &&
    material.strength === undefined
  );
}

/** A tare or gross with a material weighs that by difference; otherwise it is about a vessel. */
function sortWeighing(entry: BenchEntry, into: Sorting): void {
  const step = placeStep(into.places, entry);
  const vessel = placeVessel(into.places, entry);
  const lost = step.kind === 'lost' ? step : vessel.kind === 'lost' ? vessel : undefined;
  const read = readReading(entry, ['mass']);
  if ('diagnostic' in read) {
    into.diagnostics.push(read.diagnostic);
    return;
  }
  if (step.kind !== 'lost' && namesMaterial(entry)) {
    const known = step.kind === 'found' ? step.value : undefined;
    const use = placeUse(into.places, entry, known);
    const certain = entry.use !== undefined || known !== undefined || vessel.kind === 'none';
    if (use.kind === 'found' && certain) {
      const role = entry.kind === 'net' ? 'direct' : (entry.kind as 'tare' | 'gross');
      into.charges.push({ ...use.value, role, reading: read.reading });
      return;
    }
    if (use.kind === 'lost' && vessel.kind === 'none' && known?.verb !== 'weigh') {
      into.diagnostics.push(unplaced(entry, use));
      return;
    }
  }
  if (lost !== undefined) {
    into.diagnostics.push(unplaced(entry, lost));
    return;
  }
  into.vessels.push({
    reading: read.reading,
    ...(step.kind === 'found' ? { step: step.value.id } : {}),
    ...(vessel.kind === 'found' ? { vessel: vessel.value } : {}),
  });
}

function namesMaterial(entry: BenchEntry): boolean {
  return entry.use !== undefined || (entry.item ?? '').trim() !== '';
}

function keepReading(
  entry: BenchEntry,
  into: Sorting,
  kind: Reading['kind'],
  list: Reading[],
): void {
  const step = placeStep(into.places, entry);
  if (step.kind === 'lost') into.diagnostics.push(unplaced(entry, step));
  const read = readReading(entry, [kind]);
  if ('diagnostic' in read) into.diagnostics.push(read.diagnostic);
  else if (step.kind === 'found') list.push({ ...read.reading, step: step.value.id });
  else list.push(read.reading);
}

/** A measurement of identity or purity, which moves no matter. */
function sortEvidence(entry: BenchEntry, into: Sorting): void {
  const { evidence } = entry;
  if (evidence !== undefined) into.evidence.push({ entry, evidence });
  else
    into.diagnostics.push({
      code: 'entry-empty',
      severity: 'warning',
      message: `Entry "${entry.id}" is called evidence and holds no measurement.`,
      hint: 'Enter what was measured, or write it as an observation.',
      entry: entry.id,
    });
}

/** A lot's number, and its assay where the entry gives a percentage. */
function sortLot(entry: BenchEntry, into: Sorting): void {
  const placed = findUse(entry, into);
  if (placed === undefined) return;
  const percent = entry.value !== undefined && entry.unit?.trim().startsWith('%');
  const possible = percent && entry.value > 0 && entry.value <= 100;
  if (entry.value !== undefined && !possible) {
    into.diagnostics.push({
      code: 'entry-unit',
      severity: 'warning',
      message: `The assay in entry "${entry.id}" is no percentage up to 100.`,
      hint: 'Write it in %, or put the lot number in the text.',
      entry: entry.id,
    });
  }
  into.lots.push({
    use: placed.use.id,
    text: entry.text ?? '',
    entry: entry.id,
    ...(possible ? { purity_percent: entry.value } : {}),
  });
}
