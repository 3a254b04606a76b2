import type { Enactment } from '../../enact/enactment.ts';
import type { Experiment, ReactionDeclaration, ReactionTerm } from '../../experiment/step.ts';
import { sentenceStart } from '../../quantity/sentence.ts';
import { nameOf } from '../common/name.ts';
import { isRecovery, limitingOf, perEquation, suppliesOf } from './supply.ts';
import type { ReactionSupply, Supply } from './supply.ts';

export interface Named {
  readonly substance: string;
  readonly name: string;
}

export interface LimitingCharged extends Named {
  readonly amount_mmol: number;
}

export interface ReactantTheory extends Named {
  readonly coefficient: number;
  /** null: in excess, without a figure. */
  readonly amount_mmol: number | null;
  readonly limits: boolean;
  /** What is left when the reaction has gone as far as it can, and that as a share of the need. */
  readonly left_mmol: number | null;
  readonly excess_percent: number | null;
}

export interface ReactionTheory {
  readonly reaction: string;
  readonly text: string;
  /** A product that is only separated is counted on what was charged of it. */
  readonly kind: 'declared' | 'recovery';
  readonly ran: boolean;
  /** As far as the limiting reagent lets it go. */
  readonly extent_mmol: number;
  readonly reactants: readonly ReactantTheory[];
  /** What runs out first in the pot of this reaction, be it an intermediate. */
  readonly limiting?: Named;
  /** The same, followed up the reactions before to what was charged, or weighed on the way. */
  readonly limitingCharged?: LimitingCharged;
  /** What the yield is counted on: the limiting reagent, unless the document says otherwise. */
  readonly basis?: Named;
  readonly basisDeclared: boolean;
  /** Extent at which the basis would be used up: what the theoretical yield rests on. */
  readonly basisExtent_mmol: number;
  readonly said: readonly string[];
}

export type ProductRole = 'product' | 'intermediate' | 'by-product';

export interface ProductTheory extends Named {
  readonly role: ProductRole;
  readonly reactions: readonly string[];
  readonly molarMass_g_mol: number | null;
  readonly amount_mmol: number;
  readonly mass_g: number | null;
  /** What was charged, or weighed on the way, that its yield is counted on in the end. */
  readonly basis?: Named;
}

export interface TheoryReport {
  readonly reactions: readonly ReactionTheory[];
  /** Declared products first, then what else the declared reactions form. */
  readonly products: readonly ProductTheory[];
  readonly said: readonly string[];
}

export interface TheoryOptions {
  /** Intermediates whose mass was found: what follows starts from there. */
  readonly weighed?: ReadonlySet<string>;
}

/**
 * For each declared reaction the limiting reagent, the extent and what is left over; for each
 * product the amount (mmol) and mass (g) at full conversion: n = ν·n(basis)/ν(basis). Where a
 * reaction feeds another, its product is taken as formed in full unless it was weighed.
 */
export function theoryReport(
  experiment: Experiment,
  enactment: Enactment,
  options: TheoryOptions = {},
): TheoryReport {
  const supplies = fullSupplies(experiment, enactment, options.weighed ?? new Set());
  const known = new Set([...chargedSubstances(enactment), ...(options.weighed ?? [])]);
  const reactions = supplies.map((supply) => ({
    ...reactionTheory(experiment, enactment, supply),
    ...limitingChargedOf(supply, enactment, supplies, known),
  }));
  const roots = supplies.map((supply) => {
    const basis = basisOf(experiment, supply);
    return basis === undefined ? undefined : rootBasis(basis, experiment, supplies, known);
  });
  const bases = roots.map((root) =>
    root === undefined
      ? undefined
      : { substance: root.substance, name: nameOf(enactment, root.substance) },
  );
  const products = productTheories(experiment, supplies, reactions, bases);
  return { reactions, products, said: reactions.flatMap((each) => each.said) };
}

/** The reactant that the document wants the yield of this reaction counted on. */
export function declaredBasis(
  experiment: Experiment,
  reaction: ReactionDeclaration,
): string | undefined {
  const wanted = reaction.basis ?? experiment.basis;
  const isReactant = reaction.reactants.some((each) => each.substance.id === wanted);
  return isReactant ? wanted : undefined;
}

/** The supply that the yield is counted on: the declared basis if it has a figure, or the limit. */
export function basisOf(experiment: Experiment, supply: ReactionSupply): Supply | undefined {
  const wanted = declaredBasis(experiment, supply.reaction);
  const declared = supply.supplies.find((each) => each.substance === wanted);
  return declared !== undefined && Number.isFinite(declared.amount_mmol)
    ? declared
    : limitingOf(supply.supplies);
}

/**
 * Supplies as they would be if every reaction before had gone in full: what such a reaction formed
 * counts times (full extent)/(extent reached), and what a reaction that never ran would have formed
 * counts too. What also came from the stock, or was weighed in between, counts as it is.
 */
export function fullSupplies(
  experiment: Experiment,
  enactment: Enactment,
  weighed: ReadonlySet<string>,
): ReactionSupply[] {
  const charged = chargedSubstances(enactment);
  const factors = new Map<string, number>();
  const wouldForm = new Map<string, number>();
  return suppliesOf(experiment, enactment).map((supply) => {
    const supplies = supply.supplies.map((each) => {
      const factor = factors.get(each.substance) ?? 1;
      const scaled = factor === 1 ? each.amount_mmol : each.amount_mmol * factor;
      const amount_mmol = supply.ran ? scaled : scaled || (wouldForm.get(each.substance) ?? 0);
      return { ...each, amount_mmol };
    });
    const full = { ...supply, supplies };
    const basis = basisOf(experiment, full);
    const reach = basis === undefined ? 0 : perEquation(basis);
    const reached = supply.extent_mmol;
    const factor = basis === undefined || reached <= 0 ? 1 : reach / reached;
    for (const { substance, coefficient } of supply.reaction.products) {
      if (weighed.has(substance.id) || charged.has(substance.id)) continue;
      if (!supply.ran) wouldForm.set(substance.id, coefficient * reach);
      else if (Math.abs(factor - 1) > 1e-12) factors.set(substance.id, factor);
    }
    return full;
  });
}

export function chargedSubstances(enactment: Enactment): ReadonlySet<string> {
  return new Set(enactment.charges.map((charge) => charge.material.substance.id));
}

/**
 * What a yield is counted on in the end: the deciding supply itself if it was charged or weighed;
 * else, up the reactions that formed it, the one that was.
 */
export function rootBasis(
  basis: Supply,
  experiment: Experiment,
  supplies: readonly ReactionSupply[],
  known: ReadonlySet<string>,
): Supply {
  return rootOf(basis, supplies, known, (former) => basisOf(experiment, former));
}

/** Up the reactions that formed what limits, to what was charged or weighed. */
export function rootLimiting(
  limiting: Supply,
  supplies: readonly ReactionSupply[],
  known: ReadonlySet<string>,
): Supply {
  return rootOf(limiting, supplies, known, (former) => limitingOf(former.supplies));
}

function rootOf(
  start: Supply,
  supplies: readonly ReactionSupply[],
  known: ReadonlySet<string>,
  decides: (former: ReactionSupply) => Supply | undefined,
): Supply {
  let current = start;
  const seen = new Set<string>();
  while (!known.has(current.substance) && !seen.has(current.substance)) {
    seen.add(current.substance);
    const wanted = current.substance;
    const former = supplies.find(({ reaction }) =>
      reaction.products.some((term) => term.substance.id === wanted),
    );
    const above = former === undefined ? undefined : decides(former);
    if (above === undefined) break;
    current = above;
  }
  return current;
}

function limitingChargedOf(
  supply: ReactionSupply,
  enactment: Enactment,
  supplies: readonly ReactionSupply[],
  known: ReadonlySet<string>,
): Pick<ReactionTheory, 'limitingCharged'> {
  const limiting = limitingOf(supply.supplies);
  if (limiting === undefined) return {};
  const { substance, amount_mmol } = rootLimiting(limiting, supplies, known);
  return { limitingCharged: { substance, name: nameOf(enactment, substance), amount_mmol } };
}

function reactionTheory(
  experiment: Experiment,
  enactment: Enactment,
  supply: ReactionSupply,
): ReactionTheory {
  const { reaction, ran, supplies } = supply;
  const limiting = limitingOf(supplies);
  const basis = basisOf(experiment, supply);
  const extent_mmol = limiting === undefined ? 0 : perEquation(limiting);
  const named = (each: Supply): Named => ({
    substance: each.substance,
    name: nameOf(enactment, each.substance),
  });
  const basisDeclared = declaredBasis(experiment, reaction) !== undefined;
  return {
    reaction: reaction.id,
    text: reaction.text,
    kind: isRecovery(reaction) ? 'recovery' : 'declared',
    ran,
    extent_mmol,
    reactants: supplies.map((each) => ({
      ...named(each),
      coefficient: each.coefficient,
      limits: each === limiting,
      ...leftOver(each, extent_mmol),
    })),
    ...(limiting === undefined ? {} : { limiting: named(limiting) }),
    ...(basis === undefined ? {} : { basis: named(basis) }),
    basisDeclared,
    basisExtent_mmol: basis === undefined ? 0 : perEquation(basis),
    said: saidOf(enactment, supply, basisDeclared, limiting, basis),
  };
}

function leftOver(
  supply: Supply,
  extent_mmol: number,
): Pick<ReactantTheory, 'amount_mmol' | 'left_mmol' | 'excess_percent'> {
  if (!Number.isFinite(supply.amount_mmol)) {
    return { amount_mmol: null, left_mmol: null, excess_percent: null };
  }
  const need = supply.coefficient * extent_mmol;
  const left_mmol = Math.max(0, supply.amount_mmol - need);
  const excess_percent = need > 0 ? (100 * left_mmol) / need : null;
  return { amount_mmol: supply.amount_mmol, left_mmol, excess_percent };
}

function saidOf(
  enactment: Enactment,
  { reaction, ran }: ReactionSupply,
  basisDeclared: boolean,
  limiting: Supply | undefined,
  basis: Supply | undefined,
): string[] {
  const said: string[] = [];
  if (!ran) {
    said.push(
      `${reaction.id} does not run in this procedure; its theory is counted from what is charged in all.`,
    );
  }
  if (limiting === undefined) {
    said.push(`No reactant of ${reaction.id} has a figure, so that none can limit it.`);
  } else if (basisDeclared && basis !== undefined && basis.substance !== limiting.substance) {
    const name = nameOf(enactment, basis.substance);
    const first = nameOf(enactment, limiting.substance);
    said.push(
      `The yield of ${reaction.id} is counted on ${name}, as the document says; ${first} runs out first.`,
    );
  }
  if (reaction.conversion < 1) {
    const percent = Number((100 * reaction.conversion).toPrecision(4));
    said.push(
      `Theory is counted at full conversion; the document gives ${reaction.id} ${percent} %.`,
    );
  }
  if (reaction.balance === 'open') {
    said.push(
      `${reaction.id} is not balanced as written; its coefficients are taken at their word.`,
    );
  }
  return said.map(sentenceStart);
}

function productTheories(
  experiment: Experiment,
  supplies: readonly ReactionSupply[],
  reactions: readonly ReactionTheory[],
  bases: readonly (Named | undefined)[],
): ProductTheory[] {
  const consumed = new Set(
    experiment.reactions.flatMap((each) => each.reactants.map((term) => term.substance.id)),
  );
  const declared = new Set(experiment.products.map((each) => each.substance.id));
  const found = new Map<string, ProductTheory>();
  supplies.forEach(({ reaction }, i) => {
    const theory = reactions[i]!;
    for (const term of reaction.products) {
      const { id } = term.substance;
      const role = declared.has(id) ? 'product' : consumed.has(id) ? 'intermediate' : 'by-product';
      found.set(id, productTheory(term, role, theory, bases[i], found.get(id)));
    }
  });
  const order: Record<ProductRole, number> = { product: 0, intermediate: 1, 'by-product': 2 };
  return [...found.values()].sort((a, b) => order[a.role] - order[b.role]);
}

/** Where several reactions form one product, their amounts are added. */
function productTheory(
  { coefficient, substance, name }: ReactionTerm,
  role: ProductRole,
  theory: ReactionTheory,
  basis: Named | undefined,
  before: ProductTheory | undefined,
): ProductTheory {
  const amount_mmol = coefficient * theory.basisExtent_mmol + (before?.amount_mmol ?? 0);
  const molarMass_g_mol = substance.molarMass_g_mol ?? null;
  return {
    substance: substance.id,
    name: substance.name === '' ? name : substance.name,
    role,
    reactions: [...(before?.reactions ?? []), theory.reaction],
    molarMass_g_mol,
    amount_mmol,
    mass_g: molarMass_g_mol === null ? null : (amount_mmol * molarMass_g_mol) / 1000,
    ...(basis === undefined ? {} : { basis }),
  };
}
