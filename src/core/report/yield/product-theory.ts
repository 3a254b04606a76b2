import type { Substance } from '../../chemistry/substance.ts';
import { divide, exact, minimum, multiply, scale, sum } from '../../quantity/uncertain.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';
import { molarMassOf } from './inputs.ts';
import { toUncertain } from './linear.ts';
import type { Linear } from './linear.ts';
import type { ReactionModel, SupplyModel, TheoryModel } from './model.ts';

/** One reaction's part in the theory of a product. */
export interface ProductTerm {
  readonly reaction: ReactionModel;
  readonly coefficient: number;
  /** The supplies whose least, over its coefficient, is the extent; one alone where it is declared. */
  readonly limiting: readonly SupplyModel[];
}

/** The theory of one product: T = M·Σ ν·min(n/ν). */
export interface ProductModel {
  readonly substance: Substance;
  readonly molarMass: Linear;
  readonly terms: readonly ProductTerm[];
  readonly mass_g: Uncertain;
  readonly amount_mmol: number;
}

/** undefined where no declared reaction forms it, where nothing limits it, or it has no formula. */
export function productModel(model: TheoryModel, substance: Substance): ProductModel | undefined {
  const terms = model.reactions.flatMap((reaction): ProductTerm[] => {
    const term = reaction.supply.reaction.products.find(
      (each) => each.substance.id === substance.id,
    );
    const finite = reaction.supplies.filter((each) => Number.isFinite(each.supply.amount_mmol));
    const limiting = reaction.basis === undefined ? finite : [reaction.basis];
    if (term === undefined || limiting.length === 0) return [];
    return [{ reaction, coefficient: term.coefficient, limiting }];
  });
  if (terms.length === 0 || substance.molarMass_g_mol === undefined) return undefined;
  const amount = sum(terms.map((term) => scale(extentOf(term, model), term.coefficient)));
  const molarMass = molarMassOf(substance, model.inputs);
  const mass_g = scale(multiply(amount, toUncertain(molarMass, model.inputs)), 1e-3);
  return { substance, molarMass, terms, mass_g, amount_mmol: amount.value };
}

function extentOf({ limiting }: ProductTerm, model: TheoryModel): Uncertain {
  return minimum(limiting.map((each) => scale(supplyOf(each, model), 1 / each.supply.coefficient)));
}

/** n·M₀/M: the moles follow the weighed mass, and err with the molar mass that divided it. */
function supplyOf({ amount, molarMass }: SupplyModel, model: TheoryModel): Uncertain {
  const moles = toUncertain(amount, model.inputs);
  if (molarMass === undefined) return moles;
  const mass = multiply(moles, exact(molarMass.value));
  return divide(mass, toUncertain(molarMass, model.inputs));
}

/** The supply that decides the extent of a term. */
export function decidingSupply({ limiting }: ProductTerm): SupplyModel {
  return limiting.reduce((least, each) =>
    each.supply.amount_mmol / each.supply.coefficient <
    least.supply.amount_mmol / least.supply.coefficient
      ? each
      : least,
  );
}
