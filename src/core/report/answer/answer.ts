import type { Enactment } from '../../enact/enactment.ts';
import type { Experiment } from '../../experiment/step.ts';
import { grams, millimoles } from '../common/words.ts';
import { chargedSubstances, theoryReport } from '../theory/theory.ts';
import type {
  LimitingCharged,
  Named,
  ProductTheory,
  ReactionTheory,
  TheoryReport,
} from '../theory/theory.ts';
import { durationOf, durationSentences } from './duration.ts';
import type { Duration } from './duration.ts';
import { gasSentences, gasesOf } from './gas.ts';
import type { GasSum } from './gas.ts';

export interface Makes extends Named {
  /** At most, in theory. */
  readonly mass_g: number | null;
  readonly amount_mmol: number;
  /** Charged itself, and only parted from others. */
  readonly recovered: boolean;
}

/** What a procedure makes, how much, what limits, which gas comes off and how long it takes. */
export interface PlanAnswer extends Duration {
  /** The answer first, a sentence each: what it makes, the gas, the time. */
  readonly sentences: readonly string[];
  /** Those of matter alone, for where the time stands beside them. */
  readonly matter: readonly string[];
  /** The first declared product, where a figure can be given. */
  readonly makes?: Makes;
  /** What was charged and runs out first in the reaction that makes it. */
  readonly limits?: LimitingCharged;
  readonly gases: readonly GasSum[];
}

export function planAnswer(experiment: Experiment, plan: Enactment): PlanAnswer {
  const theory = theoryReport(experiment, plan);
  const charged = chargedSubstances(plan);
  const made = theory.products.filter((product) => product.role === 'product');
  const gases = gasesOf(plan);
  const duration = durationOf(experiment, plan);
  const matter = [
    ...made.map((product) => madeSentence(product, theory, charged.has(product.substance))),
    ...(made.length === 0 ? nothingMade(experiment) : []),
    ...gasSentences(gases),
  ];
  const [first] = made;
  return {
    sentences: [...matter, ...durationSentences(duration)],
    matter,
    ...(first === undefined ? {} : { makes: makesOf(first, charged) }),
    ...limitsOf(first, theory),
    gases,
    ...duration,
  };
}

function nothingMade({ reactions, products }: Experiment): string[] {
  if (reactions.length === 0) return ['No reaction is written, so there is no yield to count.'];
  if (products.length === 0) return ['No product is named: write it under a heading “## Product”.'];
  return [];
}

function makesOf(product: ProductTheory, charged: ReadonlySet<string>): Makes {
  const { substance, name, mass_g, amount_mmol } = product;
  return { substance, name, mass_g, amount_mmol, recovered: charged.has(substance) };
}

function limitsOf(
  product: ProductTheory | undefined,
  theory: TheoryReport,
): { readonly limits?: LimitingCharged } {
  const limits = product === undefined ? undefined : makerOf(product, theory)?.limitingCharged;
  if (limits === undefined || limits.substance === product?.substance) return {};
  return { limits };
}

function makerOf(product: ProductTheory, theory: TheoryReport): ReactionTheory | undefined {
  return theory.reactions.find((one) => product.reactions.includes(one.reaction));
}

/** A product that is charged itself is only parted from others, and not made. */
function madeSentence(product: ProductTheory, theory: TheoryReport, charged: boolean): string {
  const { mass_g, amount_mmol, name } = product;
  if (!(amount_mmol > 0)) return `By these amounts no ${name} can form.`;
  const amount =
    mass_g === null ? millimoles(amount_mmol) : `${grams(mass_g)} (${millimoles(amount_mmol)})`;
  const clause = limitClause(makerOf(product, theory), product);
  return `${charged ? 'Gives back' : 'Makes'} at most ${amount} of ${name}${clause}.`;
}

/** Named is what was charged, also where an intermediate runs out in the last reaction. */
function limitClause(reaction: ReactionTheory | undefined, product: ProductTheory): string {
  const first = reaction?.limitingCharged;
  if (reaction === undefined || first === undefined) return '';
  if (first.substance === product.substance) return '';
  const amount = ` (${millimoles(first.amount_mmol)})`;
  const { basis } = product;
  if (reaction.basisDeclared && basis !== undefined && basis.substance !== first.substance)
    return `, counted on ${basis.name}; ${first.name} runs out first${amount}`;
  const counted = reaction.basis;
  if (
    reaction.basisDeclared &&
    counted !== undefined &&
    counted.substance !== reaction.limiting?.substance
  )
    return `, counted on ${counted.name}, as the document says`;
  return `; ${first.name} limits${amount}`;
}
