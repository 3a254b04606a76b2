import type { SubstanceTable } from '../../chemistry/substance.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import { enact } from '../../enact/enact.ts';
import type { Enactment } from '../../enact/enactment.ts';
import { DEFAULT_POLICY } from '../../enact/policy.ts';
import type { Program } from '../../enact/program.ts';
import type { Experiment } from '../../experiment/step.ts';
import type { Instrument } from '../../quantity/instrument.ts';
import { sentenceStart } from '../../quantity/sentence.ts';
import type { BenchRun, RecordDiagnostic } from '../../record/run.ts';
import { materialBalance } from '../balance/balance.ts';
import type { MaterialBalance } from '../balance/balance.ts';
import type { YieldReport } from '../yield/result.ts';
import { yieldReport } from '../yield/yield.ts';

/** An experiment read and enacted as planned. */
export interface Planned {
  readonly experiment: Experiment;
  readonly program: Program;
  readonly table: SubstanceTable;
  readonly plan: Enactment;
  /** Of the reading and of the plan. */
  readonly diagnostics: readonly Diagnostic[];
}

/** A bench record put in place of the plan. */
export interface Worked {
  readonly run: BenchRun;
  readonly enactment: Enactment;
  /** Of the record and of its fold. */
  readonly diagnostics: readonly RecordDiagnostic[];
  /** The laboratory's own, which come before those of the table. */
  readonly instruments?: readonly Instrument[];
}

export interface RunResult {
  readonly report: YieldReport;
  /** Of the record and of this bench's run, and the errors of the document that may spoil both. */
  readonly diagnostics: readonly RecordDiagnostic[];
  /** Of the first product. */
  readonly balance?: MaterialBalance;
}

/** The yield of a bench, and where the rest of the theoretical mass is. */
export function runResult(planned: Planned, worked: Worked): RunResult {
  const { experiment, plan, program, table } = planned;
  const quick = { ...DEFAULT_POLICY, trace: false };
  const report = yieldReport({
    experiment,
    plan,
    run: worked.run,
    reenact: (actuals) => enact(program, table, quick, actuals),
    instruments: worked.instruments ?? [],
  });
  const [first] = report.products;
  const balance = materialBalance(experiment, worked.enactment, first?.substance);
  const diagnostics = [
    ...errorsOf(planned),
    ...worked.diagnostics,
    ...ofTheRun(worked.enactment, report),
  ];
  return balance === undefined ? { report, diagnostics } : { report, diagnostics, balance };
}

function errorsOf({ diagnostics }: Planned): Diagnostic[] {
  return diagnostics
    .filter((one) => one.severity === 'error')
    .map((one) => ({ ...one, message: `${placeOf(one)}${sentenceStart(one.message)}` }));
}

function placeOf({ at }: Diagnostic): string {
  return at === undefined ? 'The document: ' : `The document, line ${at.line}: `;
}

const OF_THE_RUN: ReadonlySet<string> = new Set(['record-unusable', 'unexplained-mass']);

/** What only putting the record in place brings out, unless a finding has said it of that weighing. */
function ofTheRun({ diagnostics }: Enactment, { products }: YieldReport): Diagnostic[] {
  const judged = new Set(
    products.flatMap((product) =>
      product.entries
        .filter((entry) => entry.kind !== 'crude' || product.net_g === null)
        .map((entry) => entry.step),
    ),
  );
  return diagnostics.filter((one) => OF_THE_RUN.has(one.code) && !judged.has(one.at?.step ?? ''));
}

/** What the reader has said of a place the kernel need not say again. */
export function withoutDoubles(
  read: readonly Diagnostic[],
  ran: readonly Diagnostic[],
): Diagnostic[] {
  const placed = ({ code, at }: Diagnostic) => `${code}|${at?.line}|${at?.column}`;
  const said = new Set(read.map(placed));
  return [...read, ...ran.filter((one) => one.at === undefined || !said.has(placed(one)))];
}
