import type { Enactment } from '../../enact/enactment.ts';
import type { Experiment } from '../../experiment/step.ts';
import { theoryReport } from '../theory/theory.ts';
import type { ProductTheory, ReactionTheory, TheoryReport } from '../theory/theory.ts';
import { supplyBasis } from './basis.ts';
import { derivation, lineOf } from './derivation.ts';
import type { Derivation, WhyLine } from './derivation.ts';
import { molarMassLine } from './molar-mass.ts';
import { postingsOf } from './postings.ts';

/** T = M·Σ ν·n(B)/ν(B): the basis of each reaction that makes the product, and its coefficients. */
export function whyTheory(
  experiment: Experiment,
  enactment: Enactment,
  product: string,
): Derivation | undefined {
  const theory = theoryReport(experiment, enactment);
  const found = theory.products.find((each) => each.substance === product);
  const substance = enactment.substances.get(product);
  if (found === undefined || found.mass_g === null || substance?.molarMass_g_mol === undefined)
    return undefined;
  const makers = theory.reactions.filter((each) => found.reactions.includes(each.reaction));
  const recovered = makers.every((each) => each.kind === 'recovery');
  const basis = supplyBasis(enactment, found.basis?.substance ?? product);
  const formula = makers.length > 1 ? 'T = M · Σ ν(P) · n(B) / ν(B)' : 'T = M · ν(P) · n(B) / ν(B)';
  return derivation({
    title: `${recovered ? 'What was charged' : 'Theoretical yield'} of ${found.name}`,
    formula: recovered ? 'T = M · n(charged)' : formula,
    lines: [
      ...makers.flatMap((maker) => termLines(maker, product, experiment, enactment)),
      molarMassLine(substance, substance.molarMass_g_mol),
    ],
    result: lineOf('T', `at most, of ${found.name}`, found.mass_g, 'g', basis),
    said: [...chainOf(found, theory), ...makers.flatMap((each) => each.said)],
    postings: postingsOf(
      enactment,
      ({ substance: moved, from }) =>
        (moved === (found.basis?.substance ?? product) && from.startsWith('stock/')) ||
        (moved === product && from.startsWith('reaction/')),
    ),
  });
}

function termLines(
  maker: ReactionTheory,
  product: string,
  { reactions }: Experiment,
  enactment: Enactment,
): WhyLine[] {
  const reactant = maker.reactants.find((each) => each.substance === maker.basis?.substance);
  if (reactant === undefined || reactant.amount_mmol === null) return [];
  const declared = reactions.find((each) => each.id === maker.reaction);
  const made = declared?.products.find((each) => each.substance.id === product);
  const n = lineOf(
    'n(B)',
    `${reactant.name}, ${maker.basisDeclared ? 'which the yield is counted on' : 'which runs out first'}`,
    reactant.amount_mmol,
    'mmol',
    supplyBasis(enactment, reactant.substance),
  );
  if (made === undefined) return [n];
  const where = `in “${maker.text}”`;
  return [
    n,
    lineOf('ν(B)', `coefficient of ${reactant.name} ${where}`, reactant.coefficient, '', 'planned'),
    lineOf('ν(P)', `coefficient of ${made.name} ${where}`, made.coefficient, '', 'planned'),
  ];
}

/** An intermediate is counted as formed in full from what was charged. */
function chainOf({ basis, reactions }: ProductTheory, theory: TheoryReport): string[] {
  const last = theory.reactions.find((each) => reactions.includes(each.reaction));
  const inLast = last?.basis;
  if (basis === undefined || inLast === undefined || basis.substance === inLast.substance)
    return [];
  return [`All of the ${inLast.name} is counted as formed, from the ${basis.name} that was taken.`];
}

/** The least of n/ν decides; each reactant with its own. */
export function whyLimiting(
  experiment: Experiment,
  enactment: Enactment,
  reaction: string,
): Derivation | undefined {
  const theory = theoryReport(experiment, enactment);
  const found = theory.reactions.find((each) => each.reaction === reaction);
  const limiting = found?.reactants.find((each) => each.limits);
  if (found === undefined || limiting === undefined) return undefined;
  const lines = found.reactants.map((each): WhyLine => {
    const { name, coefficient, amount_mmol, substance } = each;
    if (amount_mmol === null)
      return {
        symbol: 'n/ν',
        what: `${name}, ν = ${coefficient}`,
        value: null,
        unit: 'mmol',
        text: 'in excess',
        basis: 'planned',
      };
    const basis = supplyBasis(enactment, substance);
    const line = lineOf('n/ν', '', amount_mmol / coefficient, 'mmol', basis);
    const n = lineOf('n', '', amount_mmol, 'mmol', basis).text;
    return { ...line, what: `${name}: ${n} / ${coefficient}` };
  });
  const charged = found.limitingCharged;
  const traced = charged !== undefined && charged.substance !== limiting.substance;
  return derivation({
    title: `What limits: ${found.text}`,
    formula: 'ξ = min(n/ν)',
    lines,
    result: lineOf(
      'ξ',
      `${limiting.name} runs out first`,
      found.extent_mmol,
      'mmol',
      supplyBasis(enactment, limiting.substance),
    ),
    said: [
      ...(traced ? [`${limiting.name} is formed from ${charged.name}, which was charged.`] : []),
      ...found.said,
    ],
    postings: postingsOf(
      enactment,
      ({ substance, from }) => substance === limiting.substance && !from.startsWith('vessel/'),
    ),
  });
}
