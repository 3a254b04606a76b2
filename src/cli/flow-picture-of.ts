import type { Charge, Enactment } from '../core/enact/enactment.ts';
import type { Experiment } from '../core/experiment/step.ts';
import { formatQuantity } from '../core/quantity/print.ts';
import { sentenceStart } from '../core/quantity/sentence.ts';
import type {
  FlowEnd,
  FlowPassage,
  FlowRow,
  FlowSheet,
  FlowState,
} from '../core/report/flow/flow.ts';
import type * as Picture from './paint/flow-picture.ts';
import { clip, keepAmounts } from './paint/text.ts';

/** What the words of a row are made from, besides the row itself. */
interface Context {
  readonly vessels: ReadonlySet<string>;
  readonly run: Enactment;
  readonly sentences: ReadonlyMap<string, string>;
  /** Substances that a declared reaction uses: of these, water apart, the moles are told. */
  readonly reactants: ReadonlySet<string>;
}

/** The report's flow sheet in the words that the painters put on the page. */
export function flowPicture(
  sheet: FlowSheet,
  run: Enactment,
  experiment: Experiment,
): Picture.FlowPicture {
  const declared = run.reactions.filter((reaction) => reaction.kind === 'declared');
  const context: Context = {
    vessels: new Set(sheet.columns.map(({ vessel }) => vessel)),
    run,
    sentences: new Map(experiment.steps.map(({ id, text }) => [id, text])),
    reactants: new Set(declared.flatMap(({ available }) => available.map((one) => one.substance))),
  };
  return {
    columns: sheet.columns.map(({ vessel, name, capacity_mL, tared }) => ({
      id: vessel,
      name,
      note: [capacity_mL === null ? '' : `${capacity_mL} mL`, tared ? 'tared' : '']
        .filter((part) => part !== '')
        .join(', '),
    })),
    rows: sheet.rows.map((row) => lineOf(row, context)),
  };
}

function lineOf(row: FlowRow, context: Context): Picture.FlowLine {
  const passages = gathered(row.passages).flatMap((one) => passageOf(one, row.step, context));
  return {
    step: row.step,
    label: keepAmounts(labelOf(context.sentences.get(row.step) ?? row.label)),
    time: timeText(row.start_min),
    passages: [...passages, ...gasPassages(row, context)],
    states: row.states.map(stateOf),
    remarks: weighings(row.step, context.run),
  };
}

const LONGEST_LABEL = 110;

/** The sentence without what stands beside the arrows anyway: its amounts in brackets. */
function labelOf(text: string): string {
  const short = text
    .replace(/\s*\([^()]*\d[^()]*\)/g, '')
    .replace(/\s+/g, ' ')
    .trim()
    .replace(/[.;,]$/, '');
  return clip(sentenceStart(short), LONGEST_LABEL);
}

function timeText(minutes: number): string {
  const whole = Math.round(minutes);
  if (whole < 120) return `${whole} min`;
  const rest = whole % 60;
  return `${Math.floor(whole / 60)} h${rest === 0 ? '' : ` ${rest} min`}`;
}

const endText = (end: FlowEnd) => (end.kind === 'vessel' ? end.vessel : `${end.kind}/${end.name}`);

/** Passages of one row that differ only in their turn ("3 × 10 mL") are one arrow. */
function gathered(passages: readonly FlowPassage[]): FlowPassage[][] {
  const groups = new Map<string, FlowPassage[]>();
  for (const passage of passages) {
    const { from, to, label, basis } = passage;
    const key = [endText(from), endText(to), label, basis].join('|');
    groups.set(key, [...(groups.get(key) ?? []), passage]);
  }
  return [...groups.values()];
}

function passageOf(
  group: readonly FlowPassage[],
  step: string,
  context: Context,
): Picture.FlowPassage[] {
  const { from, to, label, basis } = group[0]!;
  const source = vesselOf(from, context.vessels);
  const goal = vesselOf(to, context.vessels);
  if ((source === undefined && goal === undefined) || source === goal) return [];
  const charge = source === undefined ? chargeOf(step, label, context.run) : undefined;
  return [
    {
      label: keepAmounts(to.kind === 'waste' && to.name !== '' ? `${label}, ${to.name}` : label),
      amount: charge === undefined ? sumText(group) : chargeText(charge, context),
      basis: charge === undefined || charge.basis === 'measured' ? basis : 'planned',
      ...(source === undefined ? {} : { from: source }),
      ...(goal === undefined ? { leaves: leavesTo(to) } : { to: goal }),
    },
  ];
}

/** A material that is taken in a step, where its name settles which. */
function chargeOf(step: string, name: string, run: Enactment): Charge | undefined {
  const charges = run.charges.filter((charge) => charge.step === step && charge.name === name);
  const [only] = charges;
  return charges.length === 1 && STATED[only!.measuredAs] !== undefined ? only : undefined;
}

type Stated = (charge: Charge) => string | undefined;

/** The amount as it was written or measured; none where it was given without a figure. */
const STATED: Partial<Record<Charge['measuredAs'], Stated>> = {
  mass: ({ mass_g, repeat }) => timesText(mass_g, repeat, 'mass'),
  volume: ({ volume_mL, repeat }) =>
    volume_mL === undefined ? undefined : timesText(volume_mL, repeat, 'volume'),
  amount: ({ mass_g }) => formatQuantity(mass_g, 'mass', 3),
  equivalents: ({ mass_g }) => formatQuantity(mass_g, 'mass', 3),
};

function timesText(total: number, repeat: number, kind: 'mass' | 'volume'): string {
  const one = formatQuantity(total / Math.max(1, repeat), kind);
  return repeat > 1 ? `${repeat}\u00a0×\u00a0${one}` : one;
}

function chargeText(charge: Charge, { reactants }: Context): string {
  const stated = STATED[charge.measuredAs]?.(charge) ?? '';
  const { amount_mmol, material } = charge;
  const { id, phase } = material.substance;
  if (amount_mmol === undefined || !reactants.has(id) || phase === 'water') return stated;
  return `${stated}\u00a0·\u00a0${formatQuantity(amount_mmol, 'amount', 3)}`;
}

function sumText(group: readonly FlowPassage[]): string {
  const [first] = group;
  if (group.length === 1) return first!.amount;
  const volumes = group.flatMap(({ volume_mL }) => volume_mL ?? []);
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  return volumes.length === group.length
    ? formatQuantity(sum(volumes), 'volume', 2)
    : formatQuantity(sum(group.map(({ mass_g }) => mass_g)), 'mass', 3);
}

/** The stream of a waste is in the words at the left; at the right there is room for one. */
function leavesTo(end: FlowEnd): string {
  if (end.kind === 'vessel') return '';
  return end.kind === 'other' ? (end.name.split('/')[0] ?? '') : end.kind;
}

function vesselOf(end: FlowEnd, vessels: ReadonlySet<string>): string | undefined {
  if (end.kind === 'vessel') return end.vessel;
  return end.kind === 'other' && vessels.has(end.name) ? end.name : undefined;
}

/** Below this nobody sees a bubble. */
const LEAST_GAS_L = 0.0005;

/** Gas that comes off and that the row does not show as a passage of its own. */
function gasPassages(row: FlowRow, { run, vessels }: Context): Picture.FlowPassage[] {
  const volumes_L = new Map<string, { vessel: string; name: string; volume_L: number }>();
  for (const { step, vessel, substance, volume_L } of run.gases) {
    if (step !== row.step || !vessels.has(vessel)) continue;
    const key = `${vessel}|${substance}`;
    const before = volumes_L.get(key)?.volume_L ?? 0;
    const name = run.substances.get(substance)?.name ?? substance;
    volumes_L.set(key, { vessel, name, volume_L: before + volume_L });
  }
  return [...volumes_L.values()].flatMap(({ vessel, name, volume_L }) => {
    const shown = row.passages.some((one) => one.to.kind === 'air' && one.label === name);
    if (shown || volume_L < LEAST_GAS_L) return [];
    const amount = formatQuantity(volume_L * 1000, 'volume', 2);
    return [{ from: vessel, leaves: 'air', label: name, amount, basis: 'assumed' as const }];
  });
}

function stateOf(state: FlowState): Picture.FlowState {
  const seen = state.phases.filter((phase) => phase.phase !== 'vapour' && phase.mass_g > 0);
  const bulk = (phase: (typeof seen)[number]) => phase.volume_mL ?? phase.mass_g;
  const total = seen.reduce((sum, phase) => sum + bulk(phase), 0);
  const dry = seen.length > 0 && seen.every((phase) => phase.phase === 'solid');
  const amount = dry
    ? formatQuantity(state.mass_g, 'mass', 3)
    : formatQuantity(state.volume_mL, 'volume', 2);
  const over = state.fill !== null && state.fill > 1;
  return {
    vessel: state.vessel,
    amount: total > 0 ? `${amount}${over ? ' (more than it holds)' : ''}` : '',
    ...(state.fill === null ? {} : { fill: state.fill }),
    layers:
      total > 0 ? seen.map((phase) => ({ phase: phase.phase, share: bulk(phase) / total })) : [],
  };
}

/** What the balance says at a step, or what the ledger expects it to say. */
function weighings(at: string, run: Enactment): Picture.FlowRemark[] {
  const told = run.observations.filter((one) => one.step === at && isWeighing(one.observation));
  return told.map(({ vessel, expected_g, measured_g }): Picture.FlowRemark => {
    if (measured_g !== undefined)
      return { vessel, text: formatQuantity(measured_g, 'mass', 4), basis: 'measured' };
    return { vessel, text: `${formatQuantity(expected_g, 'mass', 3)} at most`, basis: 'assumed' };
  });
}

const isWeighing = (observation: string) => observation === 'net' || observation === 'gross';
