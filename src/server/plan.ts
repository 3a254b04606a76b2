import { tableWith } from '../core/chemistry/substance.ts';
import { enact } from '../core/enact/enact.ts';
import type { Enactment } from '../core/enact/enactment.ts';
import { programOf } from '../core/enact/program.ts';
import { readExperiment } from '../core/experiment/read.ts';
import type { Experiment } from '../core/experiment/step.ts';

/** A document read, and enacted as it was planned. */
export function planOf(text: string): {
  readonly experiment: Experiment;
  readonly plan: Enactment;
} {
  const experiment = readExperiment(text);
  return {
    experiment,
    plan: enact(programOf(experiment), tableWith(experiment.substances)),
  };
}
