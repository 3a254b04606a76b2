import type { SubstanceTable } from '../src/core/chemistry/substance.ts';
import { tableWith } from '../src/core/chemistry/substance.ts';
import { enact } from '../src/core/enact/enact.ts';
import type { Enactment } from '../src/core/enact/enactment.ts';
import type { Program } from '../src/core/enact/program.ts';
import { programOf } from '../src/core/enact/program.ts';
import { readExperiment } from '../src/core/experiment/read.ts';
import type { Experiment } from '../src/core/experiment/step.ts';

/** A document read and enacted as planned. */
export interface Opened {
  readonly experiment: Experiment;
  readonly program: Program;
  readonly table: SubstanceTable;
  readonly plan: Enactment;
}

export function opened(text: string): Opened {
  const experiment = readExperiment(text);
  const program = programOf(experiment);
  const table = tableWith(experiment.substances);
  return { experiment, program, table, plan: enact(program, table) };
}

/** A measurement on a document that does not read clean would measure its mistakes. A note is none. */
export function openedClean(text: string, name: string): Opened {
  const document = opened(text);
  const said = [...document.experiment.diagnostics, ...document.plan.diagnostics];
  const first = said.find(({ severity }) => severity !== 'note');
  if (first !== undefined)
    throw new Error(`${name} does not read clean: line ${first.at?.line}: ${first.message}`);
  return document;
}
