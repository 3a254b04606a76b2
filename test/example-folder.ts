import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { SubstanceTable } from '../src/core/chemistry/substance.ts';
import { tableWith } from '../src/core/chemistry/substance.ts';
import { enact } from '../src/core/enact/enact.ts';
import type { Enactment } from '../src/core/enact/enactment.ts';
import { DEFAULT_POLICY } from '../src/core/enact/policy.ts';
import type { Program } from '../src/core/enact/program.ts';
import { programOf } from '../src/core/enact/program.ts';
import { readExperiment } from '../src/core/experiment/read.ts';
import type { Experiment } from '../src/core/experiment/step.ts';
import { actualsOf } from '../src/core/record/actuals.ts';
import { readCsvRecord } from '../src/core/record/csv.ts';
import { foldRecord } from '../src/core/record/fold.ts';
import type { BenchRun, RecordDiagnostic } from '../src/core/record/run.ts';
import type { YieldReport } from '../src/core/report/yield/result.ts';
import { yieldReport } from '../src/core/report/yield/yield.ts';

const EXAMPLES = fileURLToPath(new URL('../examples', import.meta.url));

/** One folder of examples/, read and enacted as planned. */
export interface Example {
  readonly folder: string;
  readonly experiment: Experiment;
  readonly table: SubstanceTable;
  readonly program: Program;
  readonly plan: Enactment;
  /** File names, in order. */
  readonly records: readonly string[];
}

export interface ExampleBench {
  readonly run: BenchRun;
  readonly enactment: Enactment;
  readonly report: YieldReport;
  /** Of the file and of the fold. */
  readonly diagnostics: readonly RecordDiagnostic[];
}

export function exampleFolders(): string[] {
  return readdirSync(EXAMPLES, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name)
    .sort();
}

export function openExample(folder: string): Example {
  const path = join(EXAMPLES, folder);
  const experiment = readExperiment(readFileSync(join(path, 'experiment.md'), 'utf8'));
  const table = tableWith(experiment.substances);
  const program = programOf(experiment);
  const records = readdirSync(path).filter((name) => /^bench-.*\.csv$/.test(name));
  return {
    folder,
    experiment,
    table,
    program,
    plan: enact(program, table),
    records: records.sort(),
  };
}

export function openBenchOf(example: Example, record: string): ExampleBench {
  const { folder, experiment, table, program, plan } = example;
  const intake = readCsvRecord(readFileSync(join(EXAMPLES, folder, record), 'utf8'));
  const run = foldRecord(intake.entries, experiment);
  const quick = { ...DEFAULT_POLICY, trace: false };
  const reenact = (actuals: Parameters<typeof enact>[3]) => enact(program, table, quick, actuals);
  return {
    run,
    enactment: reenact(actualsOf(run)),
    report: yieldReport({ experiment, plan, run, reenact }),
    diagnostics: [...intake.diagnostics, ...run.diagnostics],
  };
}

/** Where a golden report lies, for `toMatchFileSnapshot`. */
export function goldenPath(folder: string, report: string): string {
  return join(EXAMPLES, folder, 'golden', `${report}.json`);
}

/**
 * A report as a golden keeps it: numbers to four significant figures, so that a golden changes
 * when an answer does and not with the last bit of a sum.
 */
export function golden(report: unknown): string {
  const rounded = (_key: string, value: unknown) =>
    typeof value === 'number' ? Number(value.toPrecision(4)) : value;
  return `${JSON.stringify(report, rounded, 1)}\n`;
}
