import type { Enactment } from '../../enact/enactment.ts';
import type { Instrument } from '../../quantity/instrument.ts';
import { findInstrument } from '../../quantity/instrument.ts';
import { measurementsOf } from '../../record/actuals.ts';
import type { BenchRun } from '../../record/run.ts';
import type { BudgetEntry, ProductYield, YieldReport } from '../yield/result.ts';
import { figuresOfSum } from '../common/figures.ts';
import { supplyBasis } from './basis.ts';
import { derivation, lineOf } from './derivation.ts';
import type { Derivation, WhyBasis, WhyLine } from './derivation.ts';
import { postingsOf } from './postings.ts';
import { readingLines } from './readings.ts';

const GUM = 'GUM: JCGM 100:2008, Evaluation of measurement data, 5.1 and 6.2';

export interface YieldWhy {
  readonly report: YieldReport;
  /** The substance; the first product where it is left out. */
  readonly product?: string;
  readonly run: BenchRun;
  readonly enactment: Enactment;
  readonly instruments?: readonly Instrument[];
}

function productOf({ report, product }: YieldWhy): ProductYield | undefined {
  return report.products.find((each) => product === undefined || each.substance === product);
}

/** Y = 100·m/T with the weighings that make up m. */
export function whyYield(question: YieldWhy): Derivation | undefined {
  const product = productOf(question);
  const { yield: percent = null, theory = null, net_g = null } = product ?? {};
  if (product === undefined || percent === null || theory === null || net_g === null)
    return undefined;
  const { run, enactment, report, instruments = [] } = question;
  const basis = supplyBasis(enactment, theory.basis.substance);
  const counted = product.entries.filter(({ kind }) => kind !== 'crude' && kind !== 'earlier');
  const nets = counted.flatMap(({ step, vessel }) =>
    run.nets.filter((net) => net.step === step && net.vessel === vessel),
  );
  const terms = nets.flatMap((net) => net.terms);
  return derivation({
    title: `${product.recovered ? 'Recovery' : 'Yield'} of ${product.name}`,
    formula: 'Y = 100 · m / T',
    lines: [
      lineOf('m', 'gross less tare', net_g, 'g', 'measured', undefined, figuresOfSum(net_g, terms)),
      ...nets.flatMap((net) => readingLines(net.terms, instruments)),
      lineOf('T', product.recovered ? 'what was charged' : 'theory', theory.mass_g, 'g', basis),
    ],
    result: lineOf('Y', 'of theory', percent.percent, '%', basis),
    said: report.assumed,
    postings: postingsOf(
      enactment,
      ({ substance, to }) =>
        substance === product.substance &&
        counted.some(({ vessel }) => to.startsWith(`vessel/${vessel}/`)),
    ),
  });
}

/** U = k·u: each input's share of u², the greatest first. */
export function whyUncertainty(question: YieldWhy): Derivation | undefined {
  const product = productOf(question);
  const { yield: percent = null } = product ?? {};
  if (product === undefined || percent === null) return undefined;
  const { report, run, enactment, instruments = [] } = question;
  const measured = new Map(
    measurementsOf(run, instruments).map((each) => [each.id, each.instrument]),
  );
  const { u_percent, U_percent } = percent;
  const basis =
    product.theory === null ? 'measured' : supplyBasis(enactment, product.theory.basis.substance);
  return derivation({
    title: `Uncertainty of the yield of ${product.name}`,
    formula: 'u² = Σ (∂Y/∂xᵢ · uᵢ)²; U = k · u',
    lines: [
      ...product.budget.map((entry) => budgetLine(entry, measured.get(entry.id), instruments)),
      lineOf('u', 'standard uncertainty of Y', u_percent, '%', basis),
      lineOf('k', 'coverage factor', report.k, '', 'planned'),
    ],
    result: lineOf('U', `expanded, k = ${report.k}`, U_percent, '%', basis),
    said: report.assumed,
    sources: [GUM],
  });
}

const BASIS: Readonly<Record<BudgetEntry['basis'], WhyBasis>> = {
  measured: 'measured',
  planned: 'planned',
  assumed: 'assumed',
  table: 'table',
};

function budgetLine(
  { what, share, basis }: BudgetEntry,
  instrument: string | undefined,
  own: readonly Instrument[],
): WhyLine {
  const source = instrument === undefined ? undefined : findInstrument(instrument, own)?.source;
  const on = [instrument, source].filter(Boolean).join('; ');
  return lineOf('share', what, 100 * share, '% of u²', BASIS[basis], on === '' ? undefined : on);
}
