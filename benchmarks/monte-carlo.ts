import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { enact } from '../src/core/enact/enact.ts';
import { DEFAULT_POLICY } from '../src/core/enact/policy.ts';
import { readCsvRecord } from '../src/core/record/csv.ts';
import { foldRecord } from '../src/core/record/fold.ts';
import { judge } from '../src/core/report/yield/judge.ts';
import type { Linear } from '../src/core/report/yield/linear.ts';
import { drawYield, yieldDraws } from '../src/core/report/yield/monte-carlo.ts';
import { benchmarks, demo, textOf } from './files.ts';
import type { Item } from './item.ts';
import { median, timesOf } from './measure.ts';
import { openedClean } from './opened.ts';

const DRAWS = 1_000_000;
const ROUNDS = 7;
/** Debian's own, for the packages that Debian brings; elsewhere whatever is found under the name. */
const PYTHONS = ['/usr/bin/python3', 'python3'];

interface Drawn {
  readonly times_ms: readonly number[];
  readonly mean: number;
  readonly u: number;
  readonly version: string;
}

/** The yield of the demonstration's first bench, judged from its record. */
function judgedDemo() {
  const { experiment, program, table, plan } = openedClean(textOf(demo.document), demo.document);
  const run = foldRecord(readCsvRecord(textOf(demo.record)).entries, experiment);
  const quick = { ...DEFAULT_POLICY, trace: false };
  const reenact = (actuals: Parameters<typeof enact>[3]) => enact(program, table, quick, actuals);
  const { model, products } = judge({ experiment, plan, run, reenact });
  const [product] = products;
  if (product?.net === undefined || product.model === undefined)
    throw new Error('The demonstration has no yield.');
  return { net: product.net, theory: product.model, inputs: model.inputs };
}

/** The same model as data: every sum with its slopes, for another program to evaluate. */
function described({ net, theory, inputs }: ReturnType<typeof judgedDemo>) {
  const { inputs: drawn } = yieldDraws(net, theory, inputs);
  const place = new Map(drawn.map(({ id }, i) => [id, i]));
  const form = ({ value, slopes }: Linear) => {
    const used = [...slopes].filter(([id, slope]) => place.has(id) && slope !== 0);
    const constant = used.reduce((rest, [id, s]) => rest - s * inputs.get(id)!.value, value);
    return { constant, slopes: used.map(([id, slope]) => [place.get(id)!, slope]) };
  };
  return {
    draws: DRAWS,
    rounds: ROUNDS,
    inputs: drawn.map(({ value, u, shape }) => ({ value, u, shape })),
    net: form(net),
    molarMass: form(theory.molarMass),
    terms: theory.terms.map(({ coefficient, limiting }) => ({
      coefficient,
      supplies: limiting.map(({ amount, molarMass: own, supply }) => ({
        moles: form(amount),
        molarMass: own === undefined ? null : form(own),
        factor: (own?.value ?? 1) / supply.coefficient,
      })),
    })),
  };
}

function inNumpy(model: unknown): Drawn | undefined {
  for (const python of PYTHONS) {
    const done = spawnSync(python, [join(benchmarks, 'monte_carlo.py')], {
      input: JSON.stringify(model),
      encoding: 'utf8',
    });
    if (done.status === 0) return JSON.parse(done.stdout) as Drawn;
  }
  return undefined;
}

/** A million yields drawn (JCGM 101:2008), mean, spread and 95 % interval taken. */
export function monteCarloYield(): Item[] {
  const judged = judgedDemo();
  const draws = yieldDraws(judged.net, judged.theory, judged.inputs);
  const times_ms = timesOf(
    ROUNDS,
    (seed: number) => drawYield(draws, DRAWS, seed),
    (n) => n + 1,
  );
  const own = drawYield(draws, DRAWS, 99);
  const model = described(judged);
  const numpy = inNumpy(model);
  const sort_ms = timesOf(
    ROUNDS,
    (values: Float64Array) => values.sort(),
    (n) => Float64Array.from({ length: DRAWS }, (_, i) => Math.sin(i * (n + 1))),
  );
  const said = `${draws.inputs.length} inputs. Here ${own.mean.toFixed(3)} %, u ${own.u.toFixed(4)} %.`;
  return [
    {
      what: 'Monte Carlo of the demonstration’s yield, 1,000,000 draws, with its 95 % interval',
      times_ms,
      budget_ms: 500,
      baseline:
        numpy === undefined
          ? { what: 'sorting as many numbers (numpy is NOT here)', times_ms: sort_ms }
          : { what: `the same model in numpy ${numpy.version}`, times_ms: numpy.times_ms },
      remarks: [
        numpy === undefined
          ? `${said} No python3 with numpy was found: the comparison with numpy is left out.`
          : `${said} numpy: ${numpy.mean.toFixed(3)} %, u ${numpy.u.toFixed(4)} %; its import is not counted. ` +
            `Sorting as many numbers: ${Math.round(median(sort_ms))} ms.`,
      ],
    },
  ];
}
