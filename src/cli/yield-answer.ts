import { enact } from '../core/enact/enact.ts';
import { DEFAULT_POLICY } from '../core/enact/policy.ts';
import { materialBalance } from '../core/report/balance/balance.ts';
import type { MaterialBalance } from '../core/report/balance/balance.ts';
import type { Diagnostic } from '../core/diagnostic.ts';
import { sentenceStart } from '../core/quantity/sentence.ts';
import type { YieldReport } from '../core/report/yield/result.ts';
import { yieldReport } from '../core/report/yield/yield.ts';
import type { Bench } from './bench-file.ts';
import type { Opened } from './experiment-file.ts';

export interface YieldAnswer {
  readonly report: YieldReport;
  /** Of the record and of this bench's run, and the errors of the document that may spoil both. */
  readonly diagnostics: readonly Diagnostic[];
  readonly balance?: MaterialBalance;
}

/** The yield of a bench, and where the rest of the theoretical mass is. */
export function yieldAnswer(opened: Opened, bench: Bench): YieldAnswer {
  const { experiment, plan, program, table } = opened;
  const quick = { ...DEFAULT_POLICY, trace: false };
  const report = yieldReport({
    experiment,
    plan,
    run: bench.run,
    reenact: (actuals) => enact(program, table, quick, actuals),
  });
  const [first] = report.products;
  const balance = materialBalance(experiment, bench.enactment, first?.substance);
  const diagnostics = [...errorsOf(opened), ...bench.diagnostics, ...ofTheRun(bench, report)];
  return balance === undefined ? { report, diagnostics } : { report, diagnostics, balance };
}

function errorsOf({ diagnostics }: Opened): Diagnostic[] {
  return diagnostics
    .filter((one) => one.severity === 'error')
    .map((one) => ({ ...one, message: `${placeOf(one)}${sentenceStart(one.message)}` }));
}

function placeOf({ at }: Diagnostic): string {
  return at === undefined ? 'The document: ' : `The document, line ${at.line}: `;
}

const OF_THE_RUN: ReadonlySet<string> = new Set(['record-unusable', 'unexplained-mass']);

/** What only putting the record in place brings out, unless a finding has said it of that weighing. */
function ofTheRun({ enactment }: Bench, { products }: YieldReport): Diagnostic[] {
  const judged = new Set(
    products.flatMap((product) =>
      product.entries
        .filter((entry) => entry.kind !== 'crude' || product.net_g === null)
        .map((entry) => entry.step),
    ),
  );
  return enactment.diagnostics.filter(
    (one) => OF_THE_RUN.has(one.code) && !judged.has(one.at?.step ?? ''),
  );
}
