import { tableWith } from '../../chemistry/substance.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import { enact } from '../../enact/enact.ts';
import type { Charge, Enactment } from '../../enact/enactment.ts';
import { programOf } from '../../enact/program.ts';
import { readExperiment } from '../../experiment/read.ts';
import type { Experiment, Step } from '../../experiment/step.ts';
import { planAnswer } from '../answer/answer.ts';
import type { PlanAnswer } from '../answer/answer.ts';
import { theoryReport } from '../theory/theory.ts';
import type { TheoryReport } from '../theory/theory.ts';

/** One of the two versions, read and enacted as planned. */
export interface Side {
  readonly text: string;
  readonly experiment: Experiment;
  readonly plan: Enactment;
  readonly answer: PlanAnswer;
  readonly theory: TheoryReport;
  readonly charges: ReadonlyMap<string, Charge>;
  /** The sentences of the procedure, each once, with the steps that it makes. */
  readonly sentences: readonly { readonly text: string; readonly steps: readonly Step[] }[];
  readonly said: readonly Diagnostic[];
}

export function sideOf(text: string): Side {
  const normal = text.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n');
  const experiment = readExperiment(normal);
  const plan = enact(programOf(experiment), tableWith(experiment.substances));
  return {
    text: normal,
    experiment,
    plan,
    answer: planAnswer(experiment, plan),
    theory: theoryReport(experiment, plan),
    charges: new Map(plan.charges.map((charge) => [charge.use, charge])),
    sentences: sentencesOf(experiment.steps),
    said: [...experiment.diagnostics, ...plan.diagnostics].filter(
      ({ severity }) => severity !== 'note',
    ),
  };
}

function sentencesOf(steps: readonly Step[]): { text: string; steps: Step[] }[] {
  const sentences: { text: string; steps: Step[] }[] = [];
  for (const step of steps) {
    const last = sentences.at(-1);
    if (last !== undefined && last.steps[0]!.span.start === step.span.start) last.steps.push(step);
    else sentences.push({ text: step.text.replace(/\s+/g, ' ').trim(), steps: [step] });
  }
  return sentences;
}
