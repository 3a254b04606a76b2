import type { Enactment } from '../../enact/enactment.ts';
import type { Experiment, Step } from '../../experiment/step.ts';
import { sentenceStart } from '../../quantity/sentence.ts';
import { itemOf } from '../../record/place.ts';
import { planAnswer } from '../answer/answer.ts';
import { cautionsByStep } from './cautions.ts';
import { chargeField } from './charge-field.ts';
import type { BenchField, BenchSheet, BenchStep } from './field.ts';
import { seenFields } from './seen-fields.ts';
import { waitOf } from './wait.ts';
import { weighingFields, weighingsIn } from './weighing-fields.ts';

/**
 * What a bench works through, sentence by sentence, with what is to be written down at each. A
 * record made of its fields folds without a remark, and gives the yield. Time stamps and
 * observations may be made at any step and are not listed. The plan needs a trace.
 */
export function benchSheet(experiment: Experiment, plan: Enactment): BenchSheet {
  const answer = planAnswer(experiment, plan);
  const fieldsOf = fieldsReader(experiment, plan);
  const cautions = cautionsByStep(experiment);
  const traces = new Map(plan.trace.map((each) => [each.step, each]));
  const steps = experiment.steps.map((step): BenchStep => {
    const wait = waitOf(step, traces.get(step.id));
    return {
      id: step.id,
      item: itemOf(step.id),
      section: step.part ?? null,
      sentence: sentenceStart(step.text.replace(/\s+/g, ' ').trim()),
      cautions: cautions.get(step.id) ?? [],
      ...(wait === undefined ? {} : { wait }),
      fields: fieldsOf(step),
    };
  });
  return {
    title: experiment.title,
    course: experiment.header['Course'] ?? null,
    answer: answer.sentences[0] ?? '',
    product: experiment.products[0]?.name ?? null,
    steps: onceEach(steps, experiment.steps),
  };
}

function fieldsReader(experiment: Experiment, plan: Enactment): (step: Step) => BenchField[] {
  const charges = new Map(plan.charges.map((charge) => [charge.use, charge]));
  const weighings = weighingFields(experiment, plan);
  const weighedIn = [...new Set(weighingsIn(experiment, plan).map((each) => each.vessel))];
  const counted = yieldRestsOn(experiment);
  return (step) => {
    const weighed = weighings.get(step.id) ?? [];
    const isTare = ({ kind }: BenchField) => kind === 'tare';
    return [
      // Before anything goes in.
      ...weighed.filter(isTare),
      ...(step.slots.materials ?? []).flatMap((use) => {
        const counts = counted.has(use.material?.substance.id ?? '');
        return chargeField(use, charges.get(use.id), counts) ?? [];
      }),
      ...weighed.filter((field) => !isTare(field)),
      ...seenFields(step, experiment, weighedIn),
    ];
  };
}

/** Reactants, water apart, and what is charged to be got back. */
function yieldRestsOn({ reactions, products }: Experiment): ReadonlySet<string> {
  const terms = [...reactions.flatMap((each) => each.reactants), ...products];
  const counted = terms.filter(({ substance }) => substance.phase !== 'water');
  return new Set(counted.map(({ substance }) => substance.id));
}

/** One sentence may be two operations ("the combined extracts were washed"): it is shown once. */
function onceEach(benchSteps: readonly BenchStep[], steps: readonly Step[]): BenchStep[] {
  const shown: BenchStep[] = [];
  benchSteps.forEach((each, i) => {
    const again = i > 0 && steps[i]!.span.start === steps[i - 1]!.span.start;
    const before = again ? shown.pop() : undefined;
    shown.push(
      before === undefined ? each : { ...each, fields: [...before.fields, ...each.fields] },
    );
  });
  return shown;
}
