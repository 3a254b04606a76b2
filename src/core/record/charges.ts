import type { MaterialUse, Step } from '../experiment/step.ts';
import type { Reading, RecordDiagnostic, RunCharge, Term } from './run.ts';

/** A reading that is about a material taken from the stock. */
export interface ChargeReading {
  readonly step: Step;
  readonly use: MaterialUse;
  /** Weighed out as such, or one of the two weighings of a difference. */
  readonly role: 'direct' | 'tare' | 'gross';
  readonly reading: Reading;
}

/** What was taken of each use: the sum of what was weighed or measured out. */
export function chargesOf(
  readings: readonly ChargeReading[],
  diagnostics: RecordDiagnostic[],
): RunCharge[] {
  const byUse = new Map<string, ChargeReading[]>();
  for (const reading of readings) {
    const held = byUse.get(reading.use.id);
    if (held === undefined) byUse.set(reading.use.id, [reading]);
    else held.push(reading);
  }
  const charges: RunCharge[] = [];
  for (const group of byUse.values()) {
    const charge = chargeOf(group, diagnostics);
    if (charge !== undefined) charges.push(charge);
  }
  return charges;
}

function chargeOf(
  group: readonly ChargeReading[],
  diagnostics: RecordDiagnostic[],
): RunCharge | undefined {
  const { step, use } = group[0]!;
  const masses = group.filter((each) => each.reading.kind === 'mass');
  const counted = masses.length > 0 ? masses : group;
  if (counted.length < group.length) diagnostics.push(bothKinds(use, step));
  const direct = counted.filter((each) => each.role === 'direct');
  const terms: Term[] = direct.map(({ reading }) => ({ sign: 1, reading }));
  terms.push(...differences(counted, use, step, diagnostics));
  if (terms.length === 0) return undefined;
  const value = sumOf(terms);
  if (value < 0) {
    diagnostics.push({
      code: 'entry-negative',
      severity: 'warning',
      message: `The ${use.name} of step ${step.id} comes out as less than nothing by difference.`,
      hint: 'Correct it: tare and gross may have changed places.',
      entry: terms[0]!.reading.id,
    });
    return undefined;
  }
  const taken = terms.filter((term) => term.sign === 1).length;
  if (taken > timesTaken(use)) diagnostics.push(severalTimes(use, step, taken, terms));
  const kind = counted[0]!.reading.kind === 'mass' ? 'mass' : 'volume';
  return { use: use.id, step: step.id, name: use.name, kind, value, terms };
}

/** Gross less tare, pair by pair in the order of the record. */
function differences(
  group: readonly ChargeReading[],
  use: MaterialUse,
  step: Step,
  diagnostics: RecordDiagnostic[],
): Term[] {
  const gross = group.filter((each) => each.role === 'gross');
  const tares = group.filter((each) => each.role === 'tare');
  if (gross.length !== tares.length) {
    diagnostics.push({
      code: 'entry-unpaired',
      severity: 'warning',
      message: `The ${use.name} of step ${step.id} has ${gross.length} gross and ${tares.length} tare weighings.`,
      hint: 'A weighing by difference needs one of each; those without a partner are not counted.',
      entry: (gross[0] ?? tares[0])!.reading.id,
    });
  }
  const pairs = Math.min(gross.length, tares.length);
  const terms: Term[] = [];
  for (let i = 0; i < pairs; i++) {
    terms.push({ sign: 1, reading: gross[i]!.reading }, { sign: -1, reading: tares[i]!.reading });
  }
  return terms;
}

/** Rounded where only the binary form of the readings shows: 45.3391 − 44.2188 is 1.1203. */
export function sumOf(terms: readonly Term[]): number {
  const sum = terms.reduce((total, { sign, reading }) => total + sign * reading.value, 0);
  return Number(sum.toPrecision(12));
}

function timesTaken(use: MaterialUse): number {
  return use.amounts.reduce(
    (most, amount) => Math.max(most, amount.kind === 'unquantified' ? 1 : (amount.repeat ?? 1)),
    Math.max(1, use.repeat),
  );
}

function bothKinds(use: MaterialUse, step: Step): RecordDiagnostic {
  return {
    code: 'charge-both',
    severity: 'note',
    message: `The ${use.name} of step ${step.id} was recorded by mass and by volume; the mass counts.`,
  };
}

function severalTimes(
  use: MaterialUse,
  step: Step,
  taken: number,
  terms: readonly Term[],
): RecordDiagnostic {
  return {
    code: 'charge-repeated',
    severity: 'note',
    message: `The ${use.name} of step ${step.id} was recorded ${taken} times; the amounts are added.`,
    hint: 'If one of them replaces another, enter it as a correction of that one.',
    entry: terms.at(-1)!.reading.id,
  };
}
