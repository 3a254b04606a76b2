import type {
  Charge,
  Enactment,
  GasRelease,
  Passage,
  StepTrace,
  VesselState,
} from '../../enact/enactment.ts';
import type { Experiment, Step, VesselShape } from '../../experiment/step.ts';
import type { PhaseName } from '../../experiment/move.ts';
import type { Basis } from '../../ledger/posting.ts';
import { formatNumber, formatQuantity, THIN_SPACE } from '../../quantity/print.ts';
import { figuresGiven } from '../common/figures.ts';
import { nameOf, restOf } from '../common/name.ts';

/** A column of the flow sheet: one vessel. */
export interface FlowColumn {
  readonly vessel: string;
  readonly name: string;
  readonly shape: VesselShape;
  readonly capacity_mL: number | null;
  readonly tared: boolean;
  readonly firstStep: string;
  readonly lastStep: string;
  /** Places of those steps among the rows. */
  readonly firstRow: number;
  readonly lastRow: number;
}

/** Where a passage begins or ends: a column's vessel, the stock on the left, what leaves on the right. */
export type FlowEnd =
  | { readonly kind: 'vessel'; readonly vessel: string }
  | { readonly kind: 'stock' | 'air' | 'waste' | 'other'; readonly name: string };

export interface FlowPassage {
  readonly from: FlowEnd;
  readonly to: FlowEnd;
  readonly label: string;
  /** "10 mL" or "1.12 g", in the unit that reads best. */
  readonly amount: string;
  readonly mass_g: number;
  readonly volume_mL: number | null;
  readonly basis: Basis;
  /** Goes as a gas or vapour. */
  readonly gas: boolean;
}

export interface FlowPhase {
  readonly phase: PhaseName;
  readonly volume_mL: number | null;
  readonly mass_g: number;
  /** Of the volume in the vessel, 0 to 1; null where a density is missing. */
  readonly share: number | null;
  /** What it is mostly made of, the heaviest first. */
  readonly contents: readonly { readonly name: string; readonly mass_g: number }[];
}

export interface FlowState {
  readonly vessel: string;
  /** Of the capacity; null where that is not known. May be over 1. */
  readonly fill: number | null;
  readonly volume_mL: number;
  readonly mass_g: number;
  readonly temperature_C: number;
  /** From the bottom up. */
  readonly phases: readonly FlowPhase[];
}

export interface FlowRow {
  readonly step: string;
  readonly label: string;
  readonly part: string | null;
  readonly start_min: number;
  readonly duration_min: number;
  readonly passages: readonly FlowPassage[];
  /** The vessels that the step touched, as they stand after it. */
  readonly states: readonly FlowState[];
}

export interface FlowSheet {
  readonly title: string;
  readonly columns: readonly FlowColumn[];
  readonly rows: readonly FlowRow[];
  readonly total_min: number;
}

const LABEL_LIMIT = 72;
const CONTENTS_SHOWN = 4;

/** The flow sheet as data: vessels are columns, steps are rows. Needs a run made with a trace. */
export function flowSheet(experiment: Experiment, enactment: Enactment): FlowSheet {
  const isVessel = vesselTest(experiment, enactment.trace);
  const gases = gasPassages(enactment);
  const columns = columnsOf(experiment, enactment.trace, isVessel);
  const capacity = new Map(columns.map((each) => [each.vessel, each.capacity_mL]));
  const steps = new Map(experiment.steps.map((step) => [step.id, step]));
  const rows = enactment.trace.map((trace) => ({
    step: trace.step,
    label: labelOf(steps.get(trace.step)),
    part: steps.get(trace.step)?.part ?? null,
    start_min: trace.start_min,
    duration_min: trace.duration_min,
    passages: [
      ...trace.passages.map((each) => passageOf(each, isVessel, enactment.charges)),
      ...(gases.get(trace.step) ?? []),
    ],
    states: trace.vessels.map((state) =>
      stateOf(state, capacity.get(state.vessel) ?? null, enactment),
    ),
  }));
  const last = enactment.trace.at(-1);
  const total_min = last === undefined ? 0 : last.start_min + last.duration_min;
  return { title: experiment.title, columns, rows, total_min };
}

/** Vessels in the order in which they are first used. */
function columnsOf(
  experiment: Experiment,
  trace: readonly StepTrace[],
  isVessel: IsVessel,
): FlowColumn[] {
  const spans = new Map<string, { first: number; last: number }>();
  trace.forEach((each, row) => {
    for (const vessel of touched(each, isVessel)) {
      const span = spans.get(vessel);
      if (span === undefined) spans.set(vessel, { first: row, last: row });
      else span.last = row;
    }
  });
  return [...spans].map(([id, { first, last }]) => {
    const declared = experiment.vessels.find((vessel) => vessel.id === id);
    return {
      vessel: id,
      name: declared?.name ?? id,
      shape: declared?.shape ?? 'other',
      capacity_mL: declared?.capacity_mL ?? null,
      tared: declared?.tared ?? false,
      firstStep: trace[first]!.step,
      lastStep: trace[last]!.step,
      firstRow: first,
      lastRow: last,
    };
  });
}

function touched({ passages, vessels }: StepTrace, isVessel: IsVessel): string[] {
  const ends = passages.flatMap((each) => [each.from, each.to]).filter(isVessel);
  return [...ends, ...vessels.map((state) => state.vessel)];
}

type IsVessel = (id: string) => boolean;

/** Passages name a vessel by its id, and what is no vessel by its account. */
function vesselTest(experiment: Experiment, trace: readonly StepTrace[]): IsVessel {
  const ids = new Set(experiment.vessels.map((each) => each.id));
  for (const { vessels } of trace) for (const { vessel } of vessels) ids.add(vessel);
  return (id) => ids.has(id);
}

function endOf(place: string, isVessel: IsVessel): FlowEnd {
  if (isVessel(place)) return { kind: 'vessel', vessel: place };
  const end = place.indexOf('/');
  const kind = end < 0 ? place : place.slice(0, end);
  const name = end < 0 ? '' : restOf(place);
  return kind === 'stock' || kind === 'air' || kind === 'waste'
    ? { kind, name }
    : { kind: 'other', name: place };
}

const LEAST_GAS_L = 0.001;

/** Gas that leaves a vessel in a step, by substance: an arrow like any other. */
function gasPassages(enactment: Enactment): ReadonlyMap<string, FlowPassage[]> {
  const sums = new Map<string, GasRelease>();
  for (const gas of enactment.gases) {
    const key = `${gas.step}|${gas.vessel}|${gas.substance}`;
    const held = sums.get(key);
    const amount_mmol = gas.amount_mmol + (held?.amount_mmol ?? 0);
    sums.set(key, { ...gas, amount_mmol, volume_L: gas.volume_L + (held?.volume_L ?? 0) });
  }
  const passages = new Map<string, FlowPassage[]>();
  for (const gas of sums.values()) {
    if (gas.volume_L < LEAST_GAS_L) continue;
    const molarMass = enactment.substances.get(gas.substance)?.molarMass_g_mol ?? 0;
    const list = passages.get(gas.step) ?? [];
    passages.set(gas.step, list);
    list.push({
      from: { kind: 'vessel', vessel: gas.vessel },
      to: { kind: 'air', name: '' },
      label: nameOf(enactment, gas.substance),
      amount: `${formatNumber(gas.volume_L, 2)}${THIN_SPACE}L`,
      mass_g: (gas.amount_mmol * molarMass) / 1000,
      volume_mL: null,
      basis: gasBasis(gas, enactment),
      gas: true,
    });
  }
  return passages;
}

/** As well known as the reaction that made it. */
function gasBasis(gas: GasRelease, enactment: Enactment): Basis {
  const source = enactment.reactions.find(
    (run) =>
      run.step === gas.step && run.formed.some((formed) => formed.substance === gas.substance),
  );
  return reckoned(source?.basis ?? 'assumed');
}

/** What follows from a measurement was not itself on the balance. */
const reckoned = (basis: Basis): Basis => (basis === 'measured' ? 'assumed' : basis);

/** No liquid is so light: liquid hydrogen, the lightest, has 0.07 g/mL (CRC Handbook, from memory). */
const LIGHTEST_LIQUID_g_mL = 0.05;

function passageOf(passage: Passage, isVessel: IsVessel, charges: readonly Charge[]): FlowPassage {
  const { volume_mL, mass_g } = passage;
  const to = endOf(passage.to, isVessel);
  const light = volume_mL !== undefined && mass_g < LIGHTEST_LIQUID_g_mL * volume_mL;
  const from = endOf(passage.from, isVessel);
  return {
    from,
    to,
    label: passage.label,
    amount: amountOf(passage, from.kind === 'stock' ? charges : []),
    mass_g,
    volume_mL: volume_mL ?? null,
    basis: from.kind === 'stock' ? passage.basis : reckoned(passage.basis),
    gas: passage.gas === true || to.kind === 'air' || light,
  };
}

/** What is taken from the stock, with the figures that it was given with; the rest with two or three. */
function amountOf(passage: Passage, charges: readonly Charge[]): string {
  const { step, label, mass_g, volume_mL } = passage;
  const charge = charges.find((each) => each.step === step && each.name === label);
  if (volume_mL === undefined || charge?.measuredAs === 'mass') {
    const given = charge?.measuredAs === 'mass' ? figuresGiven([charge], mass_g) : undefined;
    return formatQuantity(mass_g, 'mass', given ?? 3);
  }
  const given = charge?.measuredAs === 'volume' ? figuresGiven([charge], volume_mL) : undefined;
  return formatQuantity(volume_mL, 'volume', given ?? (volume_mL >= 100 ? 3 : 2));
}

function stateOf(state: VesselState, capacity_mL: number | null, enactment: Enactment): FlowState {
  return {
    vessel: state.vessel,
    fill: capacity_mL === null || capacity_mL <= 0 ? null : state.volume_mL / capacity_mL,
    volume_mL: state.volume_mL,
    mass_g: state.mass_g,
    temperature_C: state.temperature_C,
    phases: state.phases.map((phase) => ({
      phase: phase.phase,
      volume_mL: phase.volume_mL ?? null,
      mass_g: phase.mass_g,
      share:
        phase.volume_mL === undefined || state.volume_mL <= 0
          ? null
          : Math.min(1, phase.volume_mL / state.volume_mL),
      contents: [...phase.contents]
        .sort((a, b) => b.mass_g - a.mass_g)
        .slice(0, CONTENTS_SHOWN)
        .map(({ substance, mass_g }) => ({ name: nameOf(enactment, substance), mass_g })),
    })),
  };
}

/** The sentence without its full stop, cut at a word where it is long. */
function labelOf(step: Step | undefined): string {
  if (step === undefined) return '';
  const text = step.text.replace(/\s+/g, ' ').trim().replace(/\.$/, '');
  if (text.length <= LABEL_LIMIT) return text;
  const cut = text.slice(0, LABEL_LIMIT);
  const end = cut.lastIndexOf(' ');
  return `${cut.slice(0, end > LABEL_LIMIT / 2 ? end : LABEL_LIMIT).replace(/[,;]$/, '')} …`;
}
