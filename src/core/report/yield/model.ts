import type { ActualCharge, Actuals } from '../../enact/actuals.ts';
import { netKey } from '../../enact/actuals.ts';
import type { Enactment } from '../../enact/enactment.ts';
import type { Experiment } from '../../experiment/step.ts';
import type { Instrument } from '../../quantity/instrument.ts';
import { actualsOf } from '../../record/actuals.ts';
import type { BenchRun } from '../../record/run.ts';
import { basisOf, chargedSubstances, fullSupplies } from '../theory/theory.ts';
import type { ReactionSupply, Supply } from '../theory/supply.ts';
import {
  chargeAdjustable,
  measuredInputs,
  molarMassOf,
  netAdjustable,
  plannedAdjustable,
  unmeasuredCharges,
} from './inputs.ts';
import type { Adjustable, InputTable } from './inputs.ts';
import { withSlopes } from './linear.ts';
import type { ProductWeighing } from './weighings.ts';
import type { Linear } from './linear.ts';

/** Runs the same procedure with other amounts: the caller's interpreter, best without a trace. */
export type Reenact = (actuals: Actuals) => Enactment;

/** A supply (mmol) about what was measured, and the molar mass that turned its mass into moles. */
export interface SupplyModel {
  readonly supply: Supply;
  readonly amount: Linear;
  readonly molarMass?: Linear;
}

export interface ReactionModel {
  readonly supply: ReactionSupply;
  readonly supplies: readonly SupplyModel[];
  /** The declared basis; absent: the least of the supplies over their coefficients. */
  readonly basis?: SupplyModel;
}

export interface TheoryModel {
  readonly enactment: Enactment;
  readonly actuals: Actuals;
  readonly inputs: InputTable;
  /** The laboratory's own. */
  readonly instruments: readonly Instrument[];
  readonly reactions: readonly ReactionModel[];
  /** Substances whose amount was charged, or found by weighing an intermediate. */
  readonly known: ReadonlySet<string>;
}

/** Small against any amount that is weighed, large against the noise of arithmetic. */
const STEP = 1e-4;

/**
 * How the supplies of every reaction depend on each amount that was measured, or planned and not
 * measured: central differences through the interpreter itself. Supplies are linear in the charges
 * as long as the same reagent limits, so that the differences are exact there.
 */
export function theoryModel(
  experiment: Experiment,
  run: BenchRun,
  reenact: Reenact,
  intermediates: (enactment: Enactment) => readonly ProductWeighing[],
  instruments: readonly Instrument[] = [],
): TheoryModel {
  const actuals = actualsOf(run);
  const enactment = reenact(actuals);
  const inputs = measuredInputs(run, instruments);
  const uses = new Map(
    experiment.steps.flatMap((step) =>
      (step.slots.materials ?? []).map((use) => [use.id, use] as const),
    ),
  );
  const found = intermediates(enactment);
  const nets = found.flatMap((each) => (each.net === undefined ? [] : [each.net]));
  const adjustables: Adjustable[] = [
    ...run.charges.map(chargeAdjustable),
    ...nets.filter((net) => actuals.nets.has(netKey(net.step, net.vessel))).map(netAdjustable),
    ...unmeasuredCharges(experiment, enactment, run).map((charge) =>
      plannedAdjustable(charge, uses.get(charge.use), inputs),
    ),
  ];
  const weighed = new Set(found.map((each) => each.substance));
  const supplies = fullSupplies(experiment, enactment, weighed);
  const slopes = supplySlopes(experiment, supplies, weighed, actuals, adjustables, reenact);
  const reactions = supplies.map((supply, r): ReactionModel => {
    const models = supply.supplies.map((each, s) =>
      supplyModel(each, adjustables, slopes[r]![s]!, experiment, enactment, weighed, run, inputs),
    );
    const declared = basisOf(experiment, supply);
    const wanted = supply.reaction.basis ?? experiment.basis;
    const basis = models.find(
      ({ supply: each }) => each.substance === declared?.substance && each.substance === wanted,
    );
    return { supply, supplies: models, ...(basis === undefined ? {} : { basis }) };
  });
  const known = new Set([...chargedSubstances(enactment), ...weighed]);
  return { enactment, actuals, inputs, instruments, reactions, known };
}

function supplySlopes(
  experiment: Experiment,
  base: readonly ReactionSupply[],
  weighed: ReadonlySet<string>,
  actuals: Actuals,
  adjustables: readonly Adjustable[],
  reenact: Reenact,
): number[][][] {
  const slopes = base.map((each) => each.supplies.map(() => adjustables.map(() => 0)));
  adjustables.forEach((adjustable, j) => {
    const { value } = adjustable.amount;
    if (!(value > 0)) return;
    const [above, below] = [value * (1 + STEP), value * (1 - STEP)].map((amount) =>
      fullSupplies(experiment, reenact(adjusted(actuals, adjustable, amount)), weighed),
    );
    base.forEach((reaction, r) =>
      reaction.supplies.forEach(({ substance }, s) => {
        const high = amountOf(above![r], substance);
        const low = amountOf(below![r], substance);
        const slope = (high - low) / (2 * value * STEP);
        if (Number.isFinite(slope)) slopes[r]![s]![j] = slope;
      }),
    );
  });
  return slopes;
}

function amountOf(reaction: ReactionSupply | undefined, substance: string): number {
  const supply = reaction?.supplies.find((each) => each.substance === substance);
  return supply?.amount_mmol ?? Number.NaN;
}

function adjusted(actuals: Actuals, { of }: Adjustable, amount: number): Actuals {
  if (of.kind === 'net') {
    const nets = new Map(actuals.nets).set(netKey(of.step, of.vessel), amount);
    return { ...actuals, nets };
  }
  const { purity_percent } = actuals.charges.get(of.use) ?? {};
  const charge: ActualCharge = {
    ...(of.measure === 'mass' ? { mass_g: amount } : { volume_mL: amount }),
    ...(purity_percent === undefined ? {} : { purity_percent }),
  };
  return { ...actuals, charges: new Map(actuals.charges).set(of.use, charge) };
}

function supplyModel(
  supply: Supply,
  adjustables: readonly Adjustable[],
  slopes: readonly number[],
  experiment: Experiment,
  enactment: Enactment,
  weighed: ReadonlySet<string>,
  run: BenchRun,
  inputs: InputTable,
): SupplyModel {
  const amount = withSlopes(
    supply.amount_mmol,
    adjustables.map((each, j) => ({ slope: slopes[j]!, of: each.amount })),
  );
  const root = weighedRoot(supply.substance, experiment, enactment, weighed, run);
  const substance = root === undefined ? undefined : enactment.substances.get(root);
  if (substance?.molarMass_g_mol === undefined) return { supply, amount };
  return { supply, amount, molarMass: molarMassOf(substance, inputs) };
}

/**
 * The substance whose mass became the moles of this one: itself where it was weighed, or else what
 * limited the reaction that formed it. None where moles or equivalents are written as such.
 */
function weighedRoot(
  substance: string,
  experiment: Experiment,
  enactment: Enactment,
  weighed: ReadonlySet<string>,
  run: BenchRun,
): string | undefined {
  const seen = new Set<string>();
  let current: string | undefined = substance;
  while (current !== undefined && !seen.has(current)) {
    seen.add(current);
    if (weighed.has(current)) return current;
    const wanted: string = current;
    const charges = enactment.charges.filter((each) => each.material.substance.id === wanted);
    if (charges.length > 0) {
      const recorded = new Set(run.charges.map((each) => each.use));
      const byMass = charges.some(
        (each) =>
          recorded.has(each.use) || each.measuredAs === 'mass' || each.measuredAs === 'volume',
      );
      return byMass && charges[0]!.material.strength?.kind !== 'molarity' ? current : undefined;
    }
    const former = enactment.reactions.find((each) =>
      each.formed.some((formed) => formed.substance === wanted),
    );
    const declared = experiment.reactions.find((each) => each.id === former?.reaction);
    current = declared?.basis ?? former?.limiting;
  }
  return undefined;
}
