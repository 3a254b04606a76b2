import { tableWith } from '../../core/chemistry/substance.ts';
import type { Diagnostic } from '../../core/diagnostic.ts';
import { byImportance } from '../../core/diagnostic.ts';
import { enact } from '../../core/enact/enact.ts';
import type { Enactment } from '../../core/enact/enactment.ts';
import { programOf } from '../../core/enact/program.ts';
import { readExperiment } from '../../core/experiment/read.ts';
import type { Experiment } from '../../core/experiment/step.ts';

/** A text with all that follows from it: what was read, and the plan enacted. */
export interface Enacted {
  readonly text: string;
  readonly experiment: Experiment;
  readonly plan: Enactment;
  /** Of the reading and of the plan, each once, the most important first. */
  readonly findings: readonly Diagnostic[];
}

export function enacted(text: string): Enacted {
  const experiment = readExperiment(text);
  const plan = enact(programOf(experiment), tableWith(experiment.substances));
  return { text, experiment, plan, findings: findingsOf(experiment, plan) };
}

/** What the reader has said of a place the kernel need not say again. */
function findingsOf(experiment: Experiment, plan: Enactment): Diagnostic[] {
  const placeOf = ({ code, at }: Diagnostic) => `${code}|${at?.line}|${at?.column}`;
  const said = new Set(experiment.diagnostics.map(placeOf));
  const ran = plan.diagnostics.filter((one) => one.at === undefined || !said.has(placeOf(one)));
  return [...experiment.diagnostics, ...ran].sort(byImportance);
}
