import type { Enactment } from '../core/enact/enactment.ts';
import { formatNumber, formatQuantity } from '../core/quantity/print.ts';
import { chargedSubstances, theoryReport } from '../core/report/theory/theory.ts';
import type { ProductTheory, ReactionTheory, TheoryReport } from '../core/report/theory/theory.ts';
import type { Opened } from './experiment-file.ts';
import { listed } from './paint/text.ts';

const FIGURES = 3;

export const grams = (mass_g: number) => formatQuantity(mass_g, 'mass', FIGURES);
export const millimoles = (amount_mmol: number) =>
  `${formatNumber(amount_mmol, FIGURES)}\u202fmmol`;

/** What an experiment makes, what limits it and which gas comes off, a sentence each. */
export function planAnswer({ experiment, plan }: Opened): string[] {
  const theory = theoryReport(experiment, plan);
  const made = theory.products.filter((product) => product.role === 'product');
  const charged = chargedSubstances(plan);
  const sentences = made.map((product) =>
    madeSentence(product, theory, charged.has(product.substance)),
  );
  if (made.length === 0 && experiment.reactions.length === 0)
    sentences.push('No reaction is written, so there is no yield to count.');
  else if (made.length === 0 && experiment.products.length === 0)
    sentences.push('No product is named: write it under a heading “## Product”.');
  return [...sentences, ...gasSentences(plan)];
}

/** A product that is charged itself is only parted from others, and not made. */
function madeSentence(product: ProductTheory, theory: TheoryReport, charged: boolean): string {
  const { mass_g, amount_mmol, name } = product;
  if (!(amount_mmol > 0)) return `By these amounts no ${name} can form.`;
  const amount =
    mass_g === null ? millimoles(amount_mmol) : `${grams(mass_g)} (${millimoles(amount_mmol)})`;
  const reaction = theory.reactions.find((one) => product.reactions.includes(one.reaction));
  return `${charged ? 'Gives back' : 'Makes'} at most ${amount} of ${name}${limitClause(reaction, product)}.`;
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

/** Below this nobody sees a bubble. */
const LEAST_GAS_L = 0.0005;

function gasSentences(plan: Enactment): string[] {
  const byGas = new Map<string, { volume_L: number; steps: Set<string> }>();
  for (const { substance, volume_L, step } of plan.gases) {
    const sum = byGas.get(substance) ?? { volume_L: 0, steps: new Set<string>() };
    sum.volume_L += volume_L;
    sum.steps.add(step);
    byGas.set(substance, sum);
  }
  return [...byGas].flatMap(([id, { volume_L, steps }]) => {
    if (volume_L < LEAST_GAS_L) return [];
    const name = plan.substances.get(id)?.name ?? id;
    const where = `${steps.size === 1 ? 'step' : 'steps'} ${listed([...steps])}`;
    return [
      `Gives off ${formatQuantity(volume_L * 1000, 'volume', 2)} of ${name} in ${where} (gas at 20 °C).`,
    ];
  });
}
