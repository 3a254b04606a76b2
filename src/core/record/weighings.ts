import { sumOf } from './charges.ts';
import { itemOf } from './place.ts';
import type { Places } from './place.ts';
import type { BenchRun, Reading, RecordDiagnostic, RunNet, Term } from './run.ts';

/** A mass reading of a vessel, as far as the entry itself places it. */
export interface VesselReading {
  readonly reading: Reading;
  readonly step?: string;
  readonly vessel?: string;
}

type Weighed = Pick<BenchRun, 'weighings' | 'nets' | 'tareMissing'>;

interface VesselWeighings {
  readonly tares: Reading[];
  readonly gross: Reading[];
  /** Gross and written nets by step, in the record's order. */
  readonly steps: Map<string, { readonly gross: Reading[]; readonly nets: Reading[] }>;
}

/**
 * The nets of one bench: at each step the last gross less the tare of the vessel. A gross that
 * does not say its step belongs to the one step that weighs its vessel; a weighing without a
 * vessel belongs to the vessel that its step works on. Where several would do, it is asked.
 */
export function weighingsOf(
  readings: readonly VesselReading[],
  places: Places,
  diagnostics: RecordDiagnostic[],
): Weighed {
  const vessels = new Map<string, VesselWeighings>();
  const order = new Map<Reading, number>();
  for (const each of readings) {
    const reading = settle(each, places, diagnostics);
    if (reading === undefined) continue;
    order.set(reading, order.size);
    file(reading, vessels);
  }
  const nets: RunNet[] = [];
  const tareMissing: Weighed['tareMissing'][number][] = [];
  for (const [vessel, held] of vessels) {
    for (const [step, at] of held.steps) {
      at.gross.sort((a, b) => turn(a) - turn(b) || order.get(a)! - order.get(b)!);
      const net = netAt(step, vessel, at, tareFor(at.gross, held.tares, order));
      if (net === undefined) tareMissing.push({ step, vessel, gross: at.gross });
      else nets.push(net);
      if (net?.written !== undefined && net.terms.length > 1) checkWritten(net, diagnostics);
    }
  }
  const weighings = [...vessels].map(([vessel, { tares, gross }]) => ({ vessel, tares, gross }));
  return { weighings, nets, tareMissing };
}

function turn(reading: Reading): number {
  return reading.entry.n ?? 0;
}

function settle(
  { reading, step, vessel }: VesselReading,
  places: Places,
  diagnostics: RecordDiagnostic[],
): Reading | undefined {
  const where = vessel ?? vesselWeighedIn(step, places);
  if (where === undefined) {
    diagnostics.push(ask(reading, 'does not say which vessel was weighed', 'Name the vessel.'));
    return undefined;
  }
  if (reading.entry.kind === 'tare') {
    return { ...reading, vessel: where, ...(step === undefined ? {} : { step }) };
  }
  const weighed = places.weighings.get(where) ?? [];
  const when = weighingStep(step, weighed);
  if (when === undefined) {
    const what =
      step === undefined
        ? 'does not say at which step it was made'
        : `is at step ${step}, which does not weigh the ${where}`;
    const hint =
      weighed.length > 0
        ? `The ${where} is weighed in step ${weighed.join(', ')}: say which.`
        : `No step weighs the ${where}: say after which step it was.`;
    diagnostics.push(ask(reading, what, hint));
    return undefined;
  }
  return { ...reading, vessel: where, step: when };
}

/** The vessel that a step weighs; "19" may mean the weighing in its second sentence. */
function vesselWeighedIn(step: string | undefined, places: Places): string | undefined {
  if (step === undefined) return undefined;
  const weighing = places.weighingSteps.get(step);
  return places.vesselOfStep.get(weighing?.length === 1 ? weighing[0]! : step);
}

/**
 * The step of the procedure that a weighing belongs to: the one named, a later sentence of it, or
 * the only one there is. A vessel that no step weighs may be weighed at any.
 */
function weighingStep(step: string | undefined, weighed: readonly string[]): string | undefined {
  if (step === undefined) return weighed.length === 1 ? weighed[0] : undefined;
  if (weighed.length === 0 || weighed.includes(step)) return step;
  return weighed.findLast((each) => itemOf(each) === step);
}

function ask(reading: Reading, what: string, hint: string): RecordDiagnostic {
  return {
    code: 'entry-unplaced',
    severity: 'warning',
    message: `The ${reading.entry.kind} weighing in entry "${reading.id}" ${what}.`,
    hint,
    entry: reading.id,
  };
}

function file(reading: Reading, vessels: Map<string, VesselWeighings>): void {
  const vessel = reading.vessel!;
  let held = vessels.get(vessel);
  if (held === undefined) {
    held = { tares: [], gross: [], steps: new Map() };
    vessels.set(vessel, held);
  }
  if (reading.entry.kind === 'tare') {
    held.tares.push(reading);
    return;
  }
  let at = held.steps.get(reading.step!);
  if (at === undefined) {
    at = { gross: [], nets: [] };
    held.steps.set(reading.step!, at);
  }
  if (reading.entry.kind === 'net') at.nets.push(reading);
  else {
    at.gross.push(reading);
    held.gross.push(reading);
  }
}

/** The last tare before the weighing, or the first one after it where the record has none before. */
function tareFor(
  gross: readonly Reading[],
  tares: readonly Reading[],
  order: ReadonlyMap<Reading, number>,
): Reading | undefined {
  const last = gross.at(-1);
  if (last === undefined) return undefined;
  const before = tares.filter((tare) => order.get(tare)! < order.get(last)!);
  return before.at(-1) ?? tares[0];
}

function netAt(
  step: string,
  vessel: string,
  at: { readonly gross: readonly Reading[]; readonly nets: readonly Reading[] },
  tare: Reading | undefined,
): RunNet | undefined {
  const last = at.gross.at(-1);
  const written = at.nets.at(-1);
  const beside = written === undefined ? {} : { written };
  if (last !== undefined && tare !== undefined) {
    const terms: Term[] = [
      { sign: 1, reading: last },
      { sign: -1, reading: tare },
    ];
    return { step, vessel, net_g: sumOf(terms), terms, gross: at.gross, ...beside };
  }
  if (written === undefined) return undefined;
  const terms: Term[] = [{ sign: 1, reading: written }];
  return { step, vessel, net_g: written.value, terms, gross: at.gross, written };
}

/** Half a unit of the last digit on each side is rounding; more is a slip in the subtraction. */
function checkWritten(net: RunNet, diagnostics: RecordDiagnostic[]): void {
  const written = net.written!;
  const allowed = net.terms.reduce((sum, term) => sum + term.reading.lastDigit / 2, 0);
  if (Math.abs(written.value - net.net_g) <= allowed + written.lastDigit * 0.501) return;
  diagnostics.push({
    code: 'net-disagrees',
    severity: 'warning',
    message: `The net written for the ${net.vessel} at step ${net.step} is ${written.value} g; gross less tare is ${net.net_g} g.`,
    hint: 'Gross less tare is counted. Look at the subtraction, and at which vessel each weighing is of.',
    entry: written.id,
  });
}
