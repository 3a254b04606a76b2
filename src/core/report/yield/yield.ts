import { budget, standardUncertainty } from '../../quantity/uncertain.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';
import { nameOf } from '../common/name.ts';
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
  const reports = products.map((product) => productYield(product, model, policy));
  return {
    sentence: reports[0]?.sentence ?? 'No product is declared, so that there is no yield.',
    k: policy.k,
    products: reports,
    overall,
    findings,
    assumed: assumptions(model, products),
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

function productYield(product: Judged, model: TheoryModel, policy: YieldPolicy): ProductYield {
  const entries = product.weighings.flatMap((each) => entryOf(each, product, model, policy));
  const percent = product.fraction === undefined ? null : percentOf(product.fraction, policy);
  const report: Omit<ProductYield, 'sentence'> = {
    substance: product.substance,
    name: product.name,
    role: product.role,
    entries,
    net_g: product.net?.value ?? null,
    theory: theoryOf(product.model, model),
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

function theoryOf(product: ProductModel | undefined, model: TheoryModel): TheoreticalYield | null {
  const [term] = product?.terms ?? [];
  if (product === undefined || term === undefined) return null;
  const { supply } = decidingSupply(term);
  return {
    mass_g: product.mass_g.value,
    u_g: standardUncertainty(product.mass_g),
    amount_mmol: product.amount_mmol,
    basis: { substance: supply.substance, name: nameOf(model.enactment, supply.substance) },
    basis_mmol: supply.amount_mmol,
  };
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

function assumptions(model: TheoryModel, products: readonly Judged[]): string[] {
  const said = new Set<string>();
  for (const { fraction } of products) {
    for (const [id, part] of fraction?.parts ?? []) {
      const input = model.inputs.get(id);
      if (input === undefined || part === 0) continue;
      if (input.basis === 'planned')
        said.add(`${input.what}; half a unit of its last digit counts.`);
      if (input.basis === 'assumed') {
        said.add(`${input.what}: no known instrument is named, and its decimals suggest one.`);
      }
    }
  }
  for (const { supply, basis } of model.reactions) {
    if (!supply.ran) {
      said.add(
        `${supply.reaction.id} did not run in this enactment; its theory rests on all that was charged.`,
      );
    }
    if (basis !== undefined) {
      const name = nameOf(model.enactment, basis.supply.substance);
      said.add(`The yield of ${supply.reaction.id} is counted on ${name}, as the document says.`);
    }
  }
  for (const charge of model.enactment.charges) {
    const drawn = model.reactions.some(({ supply }) =>
      supply.supplies.some((each) => each.substance === charge.material.substance.id),
    );
    if (drawn) for (const text of charge.assumed) said.add(`${charge.name}: ${text}`);
  }
  return [...said];
}
