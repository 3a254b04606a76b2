import type { Enactment } from '../../enact/enactment.ts';
import type { Experiment, Step } from '../../experiment/step.ts';
import type { BenchField } from './field.ts';

/** As on a teaching balance that reads to the milligram (common practice). */
const DECIMALS = 3;
/** Below this share of what can be there the net is asked about; above this much too (common practice). */
const LOW = 0.02;
const HIGH = 1.2;

const gramField = { unit: 'g', decimals: DECIMALS, counts: true } as const;

export interface Weighing {
  readonly step: string;
  readonly vessel: string;
  readonly constantMass: boolean;
  /** What the plan has there. */
  readonly expected_g: number;
}

/** Tare, gross and net fields by step. */
export function weighingFields(
  experiment: Experiment,
  plan: Enactment,
): ReadonlyMap<string, readonly BenchField[]> {
  const fields = new Map<string, BenchField[]>();
  const put = (step: string, field: BenchField): void => {
    fields.set(step, [...(fields.get(step) ?? []), field]);
  };
  for (const step of experiment.steps)
    if (step.verb === 'tare') put(step.id, tareField(step.slots.on![0]!.vessel));
  const tared = new Set([...fields.values()].flat().map((field) => field.vessel!));
  for (const weighing of weighingsIn(experiment, plan)) {
    const { step, vessel } = weighing;
    const place = tared.has(vessel) ? undefined : placeOfTare(experiment, plan, weighing);
    if (place === 'none') {
      put(step, netField(weighing));
      continue;
    }
    if (place !== undefined) put(place.step, tareField(vessel));
    tared.add(vessel);
    for (const field of grossFields(weighing)) put(step, field);
  }
  return fields;
}

/** The weighings of the procedure, in its order. */
export function weighingsIn(experiment: Experiment, plan: Enactment): Weighing[] {
  const steps = new Map(experiment.steps.map((step) => [step.id, step]));
  return plan.observations
    .filter((each) => each.observation === 'net' || each.observation === 'gross')
    .map(({ step, vessel, expected_g }) => ({
      step,
      vessel,
      constantMass: isToConstantMass(steps.get(step)),
      expected_g,
    }));
}

function isToConstantMass(step: Step | undefined): boolean {
  const until = step?.slots.until;
  const said = until?.kind === 'unquantified' && until.sense === 'constantMass';
  return said || (step?.slots.manner.includes('to constant mass') ?? false);
}

/**
 * A vessel has to be weighed before anything goes in, or the mass on its label is copied then. What
 * lies in a vessel that nobody declared or calls tared (crystals on a filter) is weighed as a net.
 */
function placeOfTare(
  { vessels }: Experiment,
  { trace }: Enactment,
  { step, vessel }: Weighing,
): { readonly step: string } | 'none' {
  const declared = vessels.find((each) => each.id === vessel);
  if (declared === undefined) return 'none';
  if (declared.origin === 'implied' && !declared.tared) return 'none';
  const filled = trace.find((each) => each.passages.some((passage) => passage.to === vessel));
  return { step: filled?.step ?? step };
}

const tareKey = (vessel: string): string => `tare ${vessel}`;

function tareField(vessel: string): BenchField {
  const label = `${vessel}, empty`;
  return { key: tareKey(vessel), kind: 'tare', vessel, label, ...gramField };
}

function netField({ step, vessel, expected_g }: Weighing): BenchField {
  const label = `what the ${vessel} holds, weighed`;
  return {
    key: `net ${step} ${vessel}`,
    kind: 'net',
    vessel,
    label,
    ...gramField,
    ...(expected_g > 0 ? { low: LOW * expected_g, high: HIGH * expected_g } : {}),
  };
}

/** To constant mass two weighings are needed at least; more may follow anyway. */
function grossFields({ step, vessel, constantMass, expected_g }: Weighing): BenchField[] {
  const turns = constantMass ? [1, 2] : [1];
  const net = {
    tare: tareKey(vessel),
    planned_g: expected_g,
    low_g: LOW * expected_g,
    high_g: HIGH * expected_g,
  };
  return turns.map((n) => ({
    key: `gross ${step} ${vessel} ${n}`,
    kind: 'gross',
    vessel,
    label: n === 1 ? `${vessel}, with what it holds` : `${vessel}, weighed again`,
    ...gramField,
    n,
    ...(n === turns.length ? { again: true as const } : {}),
    ...(expected_g > 0 ? { net } : {}),
  }));
}
