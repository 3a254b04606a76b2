import { enact } from '../core/enact/enact.ts';
import { DEFAULT_POLICY } from '../core/enact/policy.ts';
import { materialBalance } from '../core/report/balance/balance.ts';
import type { MaterialBalance } from '../core/report/balance/balance.ts';
import type { YieldReport } from '../core/report/yield/result.ts';
import { yieldReport } from '../core/report/yield/yield.ts';
import type { Bench } from './bench-file.ts';
import type { Opened } from './experiment-file.ts';

export interface YieldAnswer {
  readonly report: YieldReport;
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
  return balance === undefined ? { report } : { report, balance };
}
