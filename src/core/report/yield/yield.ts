import { budget, standardUncertainty } from '../../quantity/uncertain.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';
import { sentenceStart } from '../../quantity/sentence.ts';
import { nameOf } from '../common/name.ts';
import { limitingOf } from '../theory/supply.ts';
import type { Supply } from '../theory/supply.ts';
import { rootBasis } from '../theory/theory.ts';
import type { Experiment } from '../../experiment/step.ts';
import { findingsOf } from './findings.ts';
import { linearOf } from './inputs.ts';
import { fractionOf, judge } from './judge.ts';
import type { Judged, YieldQuestion } from './judge.ts';
import { toUncertain } from './linear.ts';
import type { TheoryModel } from './model.ts';
import { yieldDraws } from './monte-carlo.ts';
import type { YieldDraws } from './monte-carlo.ts';
import { overallOf } from './overall.ts';
import { DEFAULT_YIELD_POLICY } from './policy.ts';
import type { YieldPolicy } from './policy.ts';
import { decidingSupply } from './product-theory.ts';
import type { ProductModel } from './product-theory.ts';
import { percentOf } from './result.ts';
import type {
  BudgetEntry,
  ProductYield,
  TheoreticalYield,
  YieldEntry,
  YieldReport,
} from './result.ts';
import { productSentence } from './sentence.ts';
import type { ProductWeighing } from './weighings.ts';

/**
 * The percent yield of one bench with its uncertainty: nets from the record, theory from the
 * procedure enacted with what this bench really took. Formula, sources and check:
 * docs/methods/yield.md.
 */
export function yieldReport(question: YieldQuestion): YieldReport {
  const { experiment, plan, run, policy = DEFAULT_YIELD_POLICY } = question;
  const { model, products } = judge(question);
  const overall = overallOf(experiment, products, model, policy);
  const findings = findingsOf({ experiment, plan, run, model, products, policy });
  const reports = products.map((product) => productYield(product, model, experiment, policy));
  return {
    sentence: reports[0]?.sentence ?? 'No product is declared, so that there is no yield.',
    k: policy.k,
    products: reports,
    overall,
    findings,
    assumed: assumptions(model, products, experiment),
    policy,
  };
}

/** The model of a product's yield, to be drawn by `drawYield`; undefined where there is no yield. */
export function yieldModel(question: YieldQuestion, substance?: string): YieldDraws | undefined {
  const { model, products } = judge(question);
  const product = products.find((each) => substance === undefined || each.substance === substance);
  if (product?.net === undefined || product.model === undefined) return undefined;
  return yieldDraws(product.net, product.model, model.inputs);
}

function productYield(
  product: Judged,
  model: TheoryModel,
  experiment: Experiment,
  policy: YieldPolicy,
): ProductYield {
  const entries = product.weighings.flatMap((each) => entryOf(each, product, model, policy));
  const percent = product.fraction === undefined ? null : percentOf(product.fraction, policy);
  const report: Omit<ProductYield, 'sentence'> = {
    substance: product.substance,
    name: product.name,
    role: product.role,
    recovered: isRecovered(product.substance, model),
    entries,
    net_g: product.net?.value ?? null,
    theory: theoryOf(product.model, model, experiment),
    yield: percent,
    budget: product.fraction === undefined ? [] : budgetOf(product.fraction, model),
  };
  return { ...report, sentence: productSentence(report, policy) };
}

function entryOf(
  weighing: ProductWeighing,
  product: Judged,
  model: TheoryModel,
  policy: YieldPolicy,
): YieldEntry[] {
  const { net, step, vessel, kind } = weighing;
  if (net === undefined) return [];
  const mass = linearOf(net.net_g, net.terms);
  const fraction = fractionOf(mass, product.model, model);
  return [
    {
      step,
      vessel,
      kind,
      net_g: net.net_g,
      netU_g: standardUncertainty(toUncertain(mass, model.inputs)),
      lastDigit_g: Math.max(...net.terms.map((term) => term.reading.lastDigit)),
      ...(fraction === undefined ? {} : { yield: percentOf(fraction, policy) }),
    },
  ];
}

/** It came out of the stock itself, and was only parted from others. */
function isRecovered(substance: string, model: TheoryModel): boolean {
  return model.enactment.charges.some((charge) => charge.material.substance.id === substance);
}

function theoryOf(
  product: ProductModel | undefined,
  model: TheoryModel,
  experiment: Experiment,
): TheoreticalYield | null {
  if (product === undefined) return null;
  const [supply] = rootsOf(product, model, experiment);
  if (supply === undefined) return null;
  return {
    mass_g: product.mass_g.value,
    u_g: standardUncertainty(product.mass_g),
    amount_mmol: product.amount_mmol,
    basis: { substance: supply.substance, name: nameOf(model.enactment, supply.substance) },
    basis_mmol: supply.amount_mmol,
    basisDeclared: product.terms.some(
      ({
        reaction: {
          basis,
          supply: { supplies },
        },
      }) => basis !== undefined && basis.supply.substance !== limitingOf(supplies)?.substance,
    ),
  };
}

function rootsOf(product: ProductModel, model: TheoryModel, experiment: Experiment): Supply[] {
  const supplies = model.reactions.map((each) => each.supply);
  return product.terms.map((term) =>
    rootBasis(decidingSupply(term).supply, experiment, supplies, model.known),
  );
}

/** Atomic weights stand as one line: nobody can do anything about one of them. */
function budgetOf(fraction: Uncertain, model: TheoryModel): BudgetEntry[] {
  let atomic = 0;
  const lines: BudgetEntry[] = [];
  for (const { id, share } of budget(fraction)) {
    const input = model.inputs.get(id);
    if (input === undefined || input.basis === 'table') atomic += share;
    else if (share > 0) lines.push({ id, what: input.what, share, basis: input.basis });
  }
  if (atomic > 0) {
    lines.push({ id: 'molar masses', what: 'molar masses', share: atomic, basis: 'table' });
  }
  return lines.sort((a, b) => b.share - a.share);
}

function assumptions(
  model: TheoryModel,
  products: readonly Judged[],
  experiment: Experiment,
): string[] {
  const roots = products.flatMap((each) =>
    each.model === undefined ? [] : rootsOf(each.model, model, experiment),
  );
  const said = inputsAssumed(products, model);
  for (const { supply, basis } of model.reactions) {
    if (!supply.ran) {
      said.push(
        sentenceStart(
          `${supply.reaction.id} did not run in this enactment; its theory rests on all that was charged.`,
        ),
      );
    }
    if (basis === undefined || basis.supply === limitingOf(supply.supplies)) continue;
    const name = nameOf(model.enactment, basis.supply.substance);
    said.push(`The yield of ${supply.reaction.id} is counted on ${name}, as the document says.`);
  }
  for (const charge of model.enactment.charges) {
    if (!roots.some((each) => each.substance === charge.material.substance.id)) continue;
    said.push(...charge.assumed);
  }
  return [...new Set(said)];
}

/** Inputs that carry a part of some yield and that are not simply measured. */
function inputsAssumed(products: readonly Judged[], model: TheoryModel): string[] {
  const ids = new Set(products.flatMap(({ fraction }) => [...(fraction?.parts.keys() ?? [])]));
  const inputs = [...ids].flatMap((id) => model.inputs.get(id) ?? []);
  const said = inputs
    .filter((input) => input.basis === 'planned')
    .map((input) => `${input.what}; half a unit of its last digit counts.`);
  const guessed = inputs.filter((input) => input.basis === 'assumed').map((input) => input.what);
  if (guessed.length > 0) {
    said.push(
      `No known instrument is named for: ${guessed.join('; ')}. A mass is taken to be read on the balance that its decimals suggest; a volume counts with half a unit of its last digit.`,
    );
  }
  return said;
}
