import { tableWith } from '../../core/chemistry/substance.ts';
import { byImportance } from '../../core/diagnostic.ts';
import { enact } from '../../core/enact/enact.ts';
import type { Enactment } from '../../core/enact/enactment.ts';
import { programOf } from '../../core/enact/program.ts';
import { readExperiment } from '../../core/experiment/read.ts';
import { actualsOf } from '../../core/record/actuals.ts';
import type { Instrument } from '../../core/quantity/instrument.ts';
import type { BenchEntry } from '../../core/record/entry.ts';
import { foldRecord } from '../../core/record/fold.ts';
import type { BenchRun, RecordDiagnostic } from '../../core/record/run.ts';
import { materialBalance } from '../../core/report/balance/balance.ts';
import type { MaterialBalance } from '../../core/report/balance/balance.ts';
import { balanceCourse } from '../../core/report/result/course.ts';
import type { BalanceCourse } from '../../core/report/result/course.ts';
import { runResult, withoutDoubles } from '../../core/report/result/result.ts';
import type { Planned } from '../../core/report/result/result.ts';
import type { ProductYield, YieldReport } from '../../core/report/yield/result.ts';

/** A product with where its theoretical mass went. */
export interface ProductBalance {
  readonly product: ProductYield;
  readonly balance: MaterialBalance;
  readonly course: BalanceCourse;
}

/** All that the page shows of a bench, worked out of the document and the record. */
export interface Result {
  readonly planned: Planned;
  readonly run: BenchRun;
  readonly enactment: Enactment;
  readonly report: YieldReport;
  /** The laboratory's own. */
  readonly instruments: readonly Instrument[];
  readonly balances: readonly ProductBalance[];
  /** Of the yield, the record and the document, the most important first. */
  readonly findings: readonly RecordDiagnostic[];
  /** Sentences of the procedure that are not understood, so that the ledger knows nothing of them. */
  readonly unread: number;
}

/** Once for each text: what every new entry of the record leaves as it is. */
export function plannedOf(text: string): Planned {
  const experiment = readExperiment(text);
  const program = programOf(experiment);
  const table = tableWith(experiment.substances);
  const plan = enact(program, table);
  const diagnostics = withoutDoubles(experiment.diagnostics, plan.diagnostics);
  return { experiment, program, table, plan, diagnostics };
}

export function resultOf(
  planned: Planned,
  entries: readonly BenchEntry[],
  version: string,
  instruments: readonly Instrument[] = [],
): Result {
  const { experiment, program, table } = planned;
  const run = foldRecord(entries, experiment, version);
  const enactment = enact(program, table, undefined, actualsOf(run));
  const { report, diagnostics } = runResult(planned, {
    run,
    enactment,
    diagnostics: run.diagnostics,
    instruments,
  });
  return {
    planned,
    run,
    enactment,
    report,
    instruments,
    balances: report.products.flatMap((product) => balanceOf(product, planned, enactment)),
    findings: [...report.findings, ...diagnostics].sort(byImportance),
    unread: planned.diagnostics.filter(({ code }) => code === 'sentence-not-understood').length,
  };
}

/** A by-product is worth a picture only where it was weighed. */
function balanceOf(
  product: ProductYield,
  { experiment }: Planned,
  enactment: Enactment,
): ProductBalance[] {
  if (product.role !== 'product' && product.entries.length === 0) return [];
  const balance = materialBalance(experiment, enactment, product.substance);
  if (balance === undefined || !(balance.theory_g > 0)) return [];
  return [{ product, balance, course: balanceCourse(experiment, enactment, balance, product) }];
}
