import type { Enactment } from '../../enact/enactment.ts';
import type { Experiment } from '../../experiment/step.ts';
import { divide } from '../../quantity/uncertain.ts';
import type { Instrument } from '../../quantity/instrument.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';
import type { BenchRun } from '../../record/run.ts';
import type { ProductRole } from '../theory/theory.ts';
import { linearOf } from './inputs.ts';
import { sumOfLinear, toUncertain } from './linear.ts';
import type { Linear } from './linear.ts';
import { theoryModel } from './model.ts';
import type { Reenact, TheoryModel } from './model.ts';
import type { YieldPolicy } from './policy.ts';
import { productModel } from './product-theory.ts';
import type { ProductModel } from './product-theory.ts';
import { productWeighings } from './weighings.ts';
import type { ProductWeighing, WeighingKind } from './weighings.ts';

export interface YieldQuestion {
  readonly experiment: Experiment;
  readonly plan: Enactment;
  readonly run: BenchRun;
  readonly reenact: Reenact;
  readonly policy?: YieldPolicy;
  /** The laboratory's own, which come before those of the table. */
  readonly instruments?: readonly Instrument[];
}

/** A product with what its figures are made of, before they are set out. */
export interface Judged {
  readonly name: string;
  readonly substance: string;
  readonly role: ProductRole;
  readonly weighings: readonly ProductWeighing[];
  /** The nets that count together in the end. */
  readonly final: readonly ProductWeighing[];
  readonly net?: Linear;
  readonly model?: ProductModel;
  readonly fraction?: Uncertain;
}

/** Whether a weighing is one of those that make up the yield. */
const COUNTS: Readonly<Record<WeighingKind, boolean>> = {
  isolated: true,
  crop: true,
  intermediate: true,
  crude: false,
  earlier: false,
};

/** The weighings of each product and the theory that they are compared with. */
export function judge({ experiment, plan, run, reenact, instruments = [] }: YieldQuestion): {
  readonly model: TheoryModel;
  readonly products: readonly Judged[];
} {
  let weighings: readonly ProductWeighing[] = [];
  const intermediates = (enactment: Enactment) => {
    weighings = productWeighings(experiment, plan, enactment, run);
    return weighings.filter((each) => each.kind === 'intermediate' && each.net !== undefined);
  };
  const model = theoryModel(experiment, run, reenact, intermediates, instruments);
  return { model, products: judgeProducts(experiment, model, weighings) };
}

function judgeProducts(
  experiment: Experiment,
  model: TheoryModel,
  weighings: readonly ProductWeighing[],
): Judged[] {
  const declared = experiment.products.map((each) => each.substance.id);
  const ids = new Set([...declared, ...weighings.map((each) => each.substance)]);
  const consumed = new Set(
    experiment.reactions.flatMap((each) => each.reactants.map((term) => term.substance.id)),
  );
  return [...ids].map((id): Judged => {
    const own = weighings.filter((each) => each.substance === id);
    const final = own.filter((each) => COUNTS[each.kind] && each.net !== undefined);
    const role = declared.includes(id)
      ? 'product'
      : consumed.has(id)
        ? 'intermediate'
        : 'by-product';
    const substance =
      model.enactment.substances.get(id) ??
      experiment.products.find((each) => each.substance.id === id)?.substance;
    const theory = substance === undefined ? undefined : productModel(model, substance);
    const net =
      final.length === 0
        ? undefined
        : sumOfLinear(final.map(({ net: each }) => linearOf(each!.net_g, each!.terms)));
    const fraction = fractionOf(net, theory, model);
    return {
      name: substance?.name ?? id,
      substance: id,
      role,
      weighings: own,
      final,
      ...(net === undefined ? {} : { net }),
      ...(theory === undefined ? {} : { model: theory }),
      ...(fraction === undefined ? {} : { fraction }),
    };
  });
}

/** Less than a microgram is no theory to divide by. */
const LEAST_THEORY_g = 1e-6;

/** Net over theory. */
export function fractionOf(
  net: Linear | undefined,
  theory: ProductModel | undefined,
  model: TheoryModel,
): Uncertain | undefined {
  if (net === undefined || theory === undefined) return undefined;
  // A tare above the gross is a slip, not a yield
  if (!(theory.mass_g.value > LEAST_THEORY_g) || net.value <= 0) return undefined;
  return divide(toUncertain(net, model.inputs), theory.mass_g);
}
