import type { Charge, Enactment } from '../../core/enact/enactment.ts';
import type { Experiment, MaterialUse } from '../../core/experiment/step.ts';
import type { Basis } from '../../core/ledger/posting.ts';
import type { Amount } from '../../core/quantity/amount.ts';
import { formatAmount, formatQuantity } from '../../core/quantity/print.ts';
import { sentenceStart } from '../../core/quantity/sentence.ts';
import type { BenchRun } from '../../core/record/run.ts';
import { figuresComputed, figuresGiven, figuresOfSum } from '../../core/report/common/figures.ts';
import type { FlowEnd, FlowPassage } from '../../core/report/flow/flow.ts';

/** An amount as it stands on the sheet, with how it is known. */
export interface ToldAmount {
  readonly text: string;
  readonly basis: Basis;
}

export interface ToldWeighing extends ToldAmount {
  readonly vessel: string;
}

/** What the run can say beyond the sheet: whole sentences, amounts as they were written, weighings. */
export interface FlowWords {
  /** By step. */
  readonly sentences: ReadonlyMap<string, string>;
  /** What is taken from the stock, by `chargeKey`. */
  readonly charges: ReadonlyMap<string, ToldAmount>;
  /** By step. */
  readonly weighings: ReadonlyMap<string, readonly ToldWeighing[]>;
}

export const chargeKey = (step: string, name: string) => `${step}|${name}`;

/** Of a bench, its record tells with how many figures it weighed. */
export function flowWords(run: Enactment, experiment: Experiment, record?: BenchRun): FlowWords {
  const steps = [...new Set(run.observations.map(({ step }) => step))];
  return {
    sentences: new Map(experiment.steps.map(({ id, text }) => [id, text])),
    charges: toldCharges(run, experiment),
    weighings: new Map(steps.map((step) => [step, weighings(step, run, record)])),
  };
}

/** The sentence without what stands beside the arrows anyway: its amounts in brackets. */
export function shortSentence(text: string): string {
  const short = text
    .replace(/\s*\([^()]*\d[^()]*\)/g, '')
    .replace(/\s+/g, ' ')
    .trim()
    .replace(/[.;,]$/, '');
  return sentenceStart(short);
}

const endText = (end: FlowEnd) => (end.kind === 'vessel' ? end.vessel : `${end.kind}/${end.name}`);

/** Passages of one row that differ only in their turn ("3 × 10 mL") are one arrow. */
export function gathered(passages: readonly FlowPassage[]): FlowPassage[][] {
  const groups = new Map<string, FlowPassage[]>();
  for (const passage of passages) {
    const { from, to, label, basis } = passage;
    const key = [endText(from), endText(to), label, basis].join('|');
    groups.set(key, [...(groups.get(key) ?? []), passage]);
  }
  return [...groups.values()];
}

/** What the passages of one arrow bring together. */
export function sumText(group: readonly FlowPassage[]): string {
  const [first] = group;
  if (group.length === 1) return first!.amount;
  const volumes = group.flatMap(({ volume_mL }) => volume_mL ?? []);
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  return volumes.length === group.length
    ? formatQuantity(sum(volumes), 'volume', 2)
    : formatQuantity(sum(group.map(({ mass_g }) => mass_g)), 'mass', 3);
}

/** Materials that are taken in a step, where the name settles which. */
function toldCharges(run: Enactment, { steps }: Experiment): Map<string, ToldAmount> {
  const declared = run.reactions.filter((reaction) => reaction.kind === 'declared');
  const reactants = new Set(declared.flatMap((one) => one.available.map((each) => each.substance)));
  const byKey = new Map<string, Charge[]>();
  for (const charge of run.charges) {
    const key = chargeKey(charge.step, charge.name);
    byKey.set(key, [...(byKey.get(key) ?? []), charge]);
  }
  const uses = new Map(
    steps.flatMap(({ slots }) => slots.materials ?? []).map((use) => [use.id, use]),
  );
  const told = new Map<string, ToldAmount>();
  for (const [key, charges] of byKey) {
    const [only] = charges;
    if (charges.length !== 1 || STATED[only!.measuredAs] === undefined) continue;
    const text = chargeText(only!, reactants, uses.get(only!.use));
    told.set(key, { text, basis: only!.basis });
  }
  return told;
}

type Stated = (charge: Charge, use: MaterialUse | undefined) => string | undefined;

/** The amount as it was written or read; none where it was given without a figure. */
const STATED: Partial<Record<Charge['measuredAs'], Stated>> = {
  mass: (charge, use) => givenText(charge, charge.mass_g, 'mass', use),
  volume: (charge, use) =>
    charge.volume_mL === undefined ? undefined : givenText(charge, charge.volume_mL, 'volume', use),
  amount: (charge) => formatQuantity(charge.mass_g, 'mass', figuresComputed([charge])),
  equivalents: (charge) => formatQuantity(charge.mass_g, 'mass', figuresComputed([charge])),
};

const MEASURES: Readonly<Record<'mass' | 'volume', readonly Amount['kind'][]>> = {
  mass: ['mass'],
  volume: ['volume', 'drops'],
};

function givenText(
  charge: Charge,
  total: number,
  kind: 'mass' | 'volume',
  use: MaterialUse | undefined,
): string {
  const { basis, lastDigit, repeat } = charge;
  if (basis === 'measured' && lastDigit !== undefined)
    return formatQuantity(total, kind, figuresGiven([charge], total));
  const written = use?.amounts.find(
    (amount): amount is Amount =>
      amount.kind !== 'unquantified' && MEASURES[kind].includes(amount.kind),
  );
  const one = total / Math.max(1, repeat);
  const { further: _further, repeat: _repeat, ...single } = written ?? {};
  const text = written === undefined ? formatQuantity(one, kind) : formatAmount(single as Amount);
  return repeat > 1 ? `${repeat}\u00a0×\u00a0${text}` : text;
}

/** Of what a declared reaction uses, water apart, the moles are told too. */
function chargeText(
  charge: Charge,
  reactants: ReadonlySet<string>,
  use: MaterialUse | undefined,
): string {
  const stated = STATED[charge.measuredAs]?.(charge, use) ?? '';
  const { amount_mmol, material } = charge;
  const { id, phase } = material.substance;
  if (amount_mmol === undefined || !reactants.has(id) || phase === 'water') return stated;
  return `${stated}\u00a0·\u00a0${formatQuantity(amount_mmol, 'amount', figuresComputed([charge]))}`;
}

/** What the balance says at a step, or what the ledger expects it to say. */
export function weighings(at: string, run: Enactment, record?: BenchRun): ToldWeighing[] {
  const told = run.observations.filter((one) => one.step === at && isWeighing(one.observation));
  return told.map(({ step, vessel, expected_g, measured_g }): ToldWeighing => {
    if (measured_g === undefined)
      return { vessel, text: `${formatQuantity(expected_g, 'mass', 3)} at most`, basis: 'assumed' };
    const net = record?.nets.find((each) => each.step === step && each.vessel === vessel);
    const figures = net === undefined ? undefined : figuresOfSum(measured_g, net.terms);
    return { vessel, text: formatQuantity(measured_g, 'mass', figures), basis: 'measured' };
  });
}

const isWeighing = (observation: string) => observation === 'net' || observation === 'gross';
