import type { Enactment } from '../../core/enact/enactment.ts';
import type { Experiment, MaterialUse } from '../../core/experiment/step.ts';
import type { Basis } from '../../core/ledger/posting.ts';
import { formatAmount, formatQuantity, THIN_SPACE } from '../../core/quantity/print.ts';
import { writtenDecimals } from '../../core/record/entry.ts';
import type { BenchEntry } from '../../core/record/entry.ts';
import type { BenchRun, Reading, RunCharge, RunNet, Struck } from '../../core/record/run.ts';
import type { DecimalSign } from './figures.ts';
import { inDecimals } from './figures.ts';

export interface Told {
  readonly text: string;
  readonly basis: Basis;
}

/** A line of the table of what was weighed and measured out. */
export interface EnteredRow {
  readonly key: string;
  /** The entry that it shows; a net has none of its own. */
  readonly entry?: BenchEntry;
  readonly step: string;
  readonly what: string;
  readonly planned?: Told;
  readonly measured: Told;
  /** "+0.4 %", of the amount planned. */
  readonly difference?: string;
  readonly instrument: string;
  /** Why it no longer counts. */
  readonly struck?: string;
  /** Made of the lines above it: a net, a sum. */
  readonly sum: boolean;
}

/** Where on the page a line without an entry of its own stands. */
export const rowAddress = (key: string) => `row-${key.replace(/[^\w-]+/g, '-')}`;

/** Of the net of a weighing. */
export const netKey = (step: string, vessel: string) => `net ${step} ${vessel}`;

/** What was weighed, line by line in the order of the steps, struck lines where they stood. */
export function enteredRows(
  experiment: Experiment,
  plan: Enactment,
  run: BenchRun,
  decimal: DecimalSign,
): EnteredRow[] {
  const uses = new Map(
    experiment.steps.flatMap((step) =>
      (step.slots.materials ?? []).map((use) => [use.id, use] as const),
    ),
  );
  const rows = [
    ...run.charges.flatMap((charge) => chargeRows(charge, uses.get(charge.use), plan, decimal)),
    ...weighingRows(run, plan, decimal),
  ];
  const placed = new Map(rows.flatMap((row) => (row.entry ? [[row.entry.id, row] as const] : [])));
  rows.push(...struckRows(run.struck, placed, run, decimal));
  const order = new Map(experiment.steps.map(({ id }, i) => [id, i]));
  const turn = ({ step }: EnteredRow) => order.get(step) ?? Number.POSITIVE_INFINITY;
  return rows
    .map((row, i) => ({ row, i }))
    .sort((a, b) => turn(a.row) - turn(b.row) || withStruck(a, b))
    .map(({ row }) => row);
}

/** A struck line stands just before what stands in its place; otherwise the order stays. */
function withStruck(
  a: { readonly row: EnteredRow; readonly i: number },
  b: { readonly row: EnteredRow; readonly i: number },
): number {
  const kin = (one: EnteredRow, other: EnteredRow) =>
    one.struck !== undefined && other.struck === undefined && one.what === other.what;
  return kin(a.row, b.row) ? -1 : kin(b.row, a.row) ? 1 : a.i - b.i;
}

/** The number with the decimals and the unit that were written down. */
export function asWritten(entry: BenchEntry, decimal: DecimalSign): string {
  if (entry.value === undefined) return entry.text ?? '';
  const decimals = Math.min(12, writtenDecimals(entry));
  const low = entry.value.toFixed(decimals);
  const high = entry.high === undefined ? '' : `–${entry.high.toFixed(decimals)}`;
  const unit = entry.unit === undefined ? '' : `${THIN_SPACE}${entry.unit}`;
  return `${inDecimals(`${low}${high}`.replaceAll('-', '−'), decimal)}${unit}`;
}

const INSTRUMENT_UNNAMED = 'not named';

function lineOf(reading: Reading, step: string, what: string, decimal: DecimalSign): EnteredRow {
  return {
    key: reading.id,
    entry: reading.entry,
    step,
    what,
    measured: { text: asWritten(reading.entry, decimal), basis: 'measured' },
    instrument: inDecimals(reading.instrument ?? INSTRUMENT_UNNAMED, decimal),
    sum: false,
  };
}

function chargeRows(
  charge: RunCharge,
  use: MaterialUse | undefined,
  plan: Enactment,
  decimal: DecimalSign,
): EnteredRow[] {
  const target = plan.charges.find((each) => each.use === charge.use);
  const wanted = charge.kind === 'mass' ? target?.mass_g : target?.volume_mL;
  const written = use?.amounts.find(
    (amount) => amount.kind !== 'unquantified' && amount.kind === charge.kind,
  );
  const planned: Told | undefined =
    written !== undefined
      ? { text: formatAmount(written, { decimal }), basis: 'planned' }
      : wanted === undefined
        ? undefined
        : {
            text: formatQuantity(wanted, charge.kind, 3, { decimal }),
            basis: target!.assumed.length > 0 ? 'assumed' : target!.basis,
          };
  const beside = {
    ...(planned === undefined ? {} : { planned }),
    ...(wanted === undefined ? {} : differenceOf(charge.value, wanted, decimal)),
  };
  const words = (reading: Reading) =>
    reading.entry.kind === 'tare' || reading.entry.kind === 'gross'
      ? `${charge.name}, ${reading.entry.kind}`
      : charge.name;
  const lines = charge.terms.map(({ reading }) =>
    lineOf(reading, charge.step, words(reading), decimal),
  );
  const [only] = lines;
  if (lines.length === 1 && only !== undefined) return [{ ...only, ...beside }];
  const lastDigit = Math.max(...charge.terms.map(({ reading }) => reading.lastDigit));
  const sum: EnteredRow = {
    key: `use ${charge.use}`,
    step: charge.step,
    what: `${charge.name}, together`,
    measured: { text: sumText(charge.value, lastDigit, charge.kind, decimal), basis: 'measured' },
    instrument: '',
    sum: true,
    ...beside,
  };
  return [...lines, sum];
}

function sumText(
  value: number,
  lastDigit: number,
  kind: 'mass' | 'volume',
  decimal: DecimalSign,
): string {
  const decimals = Math.min(6, Math.max(0, Math.round(-Math.log10(lastDigit))));
  const unit = kind === 'mass' ? 'g' : 'mL';
  return `${inDecimals(value.toFixed(decimals), decimal)}${THIN_SPACE}${unit}`;
}

export function differenceOf(
  value: number,
  wanted: number,
  decimal: DecimalSign,
): { readonly difference?: string } {
  if (!(wanted > 0)) return {};
  const percent = 100 * (value / wanted - 1);
  const shown = Math.abs(percent) < 0.05 ? '0' : Math.abs(percent).toFixed(percent > 100 ? 0 : 1);
  const sign = shown === '0' ? '' : percent > 0 ? '+' : '−';
  return { difference: `${sign}${inDecimals(shown, decimal)}${THIN_SPACE}%` };
}

/** The readings of each vessel, and under them the net that they give. */
function weighingRows(run: BenchRun, plan: Enactment, decimal: DecimalSign): EnteredRow[] {
  return run.weighings.flatMap(({ vessel, tares, gross }) => {
    const nets = run.nets.filter((net) => net.vessel === vessel);
    const first = nets[0]?.step ?? gross[0]?.step ?? '';
    const last = (reading: Reading, what: string) =>
      lineOf(reading, reading.step ?? first, what, decimal);
    return [
      ...tares.map((reading) => last(reading, `${vessel}, tare`)),
      ...gross.map((reading) => last(reading, `${vessel}, gross${turnText(reading, gross)}`)),
      ...nets.flatMap((net) => netRows(net, plan, decimal)),
    ];
  });
}

/** "2nd" only where a step has several. */
function turnText({ entry, step }: Reading, all: readonly Reading[]): string {
  const beside = all.filter((each) => each.step === step);
  return beside.length > 1 && entry.n !== undefined ? ` ${entry.n}` : '';
}

function netRows(net: RunNet, plan: Enactment, decimal: DecimalSign): EnteredRow[] {
  const expected = plan.observations.find(
    (each) => each.step === net.step && each.vessel === net.vessel,
  )?.expected_g;
  const lastDigit = Math.max(...net.terms.map(({ reading }) => reading.lastDigit));
  const written =
    net.written === undefined
      ? []
      : [lineOf(net.written, net.step, `${net.vessel}, net as written`, decimal)];
  if (net.terms.length === 1) return written;
  const row: EnteredRow = {
    key: netKey(net.step, net.vessel),
    step: net.step,
    what: `${net.vessel}, net`,
    measured: { text: sumText(net.net_g, lastDigit, 'mass', decimal), basis: 'measured' },
    instrument: '',
    sum: true,
    ...(expected === undefined || !(expected > 0)
      ? {}
      : {
          planned: {
            text: `${formatQuantity(expected, 'mass', 4, { decimal })} at most`,
            basis: 'assumed' as const,
          },
          ...differenceOf(net.net_g, expected, decimal),
        }),
  };
  return [...written, row];
}

const TOLD_ELSEWHERE: ReadonlySet<BenchEntry['kind']> = new Set([
  'observation',
  'time',
  'temperature',
  'meltingRange',
  'lot',
]);

/** Struck lines stand where what replaced them stands, or else where they themselves say. */
function struckRows(
  struck: readonly Struck[],
  placed: ReadonlyMap<string, EnteredRow>,
  run: BenchRun,
  decimal: DecimalSign,
): EnteredRow[] {
  const entries = new Map(run.entries.map((entry) => [entry.id, entry]));
  return struck.flatMap(({ entry, by, replacedBy }): EnteredRow[] => {
    if (TOLD_ELSEWHERE.has(entry.kind)) return [];
    const beside = placed.get(replacedBy ?? '');
    const reason = entries.get(by)?.text ?? '';
    return [
      {
        key: entry.id,
        entry,
        step: beside?.step ?? entry.step ?? '',
        what: beside?.what ?? entry.item ?? entry.vessel ?? entry.kind,
        measured: { text: asWritten(entry, decimal), basis: 'measured' },
        instrument: inDecimals(entry.instrument ?? '', decimal),
        struck: reason === '' ? 'no reason was given' : reason,
        sum: false,
      },
    ];
  });
}
