import type { Enactment, ReactionRun } from '../../enact/enactment.ts';
import type { Experiment, ReactionDeclaration } from '../../experiment/step.ts';

/** How much of a reactant a reaction could draw on. */
export interface Supply {
  readonly substance: string;
  readonly coefficient: number;
  /** Infinity for a reactant given in excess without a figure. */
  readonly amount_mmol: number;
}

export interface ReactionSupply {
  readonly reaction: ReactionDeclaration;
  /** False: the reaction never ran, and what was charged in all stands for what was there. */
  readonly ran: boolean;
  /** How far it went in this enactment. */
  readonly extent_mmol: number;
  readonly supplies: readonly Supply[];
}

const RECOVERY = 'recovery of ';

/** Where a product is not made but got back, "yield" is a recovery: X -> X of what was charged. */
export function isRecovery(reaction: ReactionDeclaration): boolean {
  return reaction.id.startsWith(RECOVERY) && reaction.reactants[0]?.coefficient === 1;
}

function recoveries({ products, reactions }: Experiment): ReactionDeclaration[] {
  const formed = new Set(reactions.flatMap((each) => each.products.map((t) => t.substance.id)));
  return products
    .filter(({ substance }) => !formed.has(substance.id))
    .map(({ substance, name, span }) => {
      const term = { coefficient: 1, substance, name };
      return {
        id: `${RECOVERY}${substance.name}`,
        text: `${substance.name}, recovered`,
        reactants: [term],
        products: [term],
        balance: 'written',
        conversion: 1,
        span,
      };
    });
}

/** The supplies of every declared reaction, in the order of the document; then of recoveries. */
export function suppliesOf(experiment: Experiment, enactment: Enactment): ReactionSupply[] {
  const recovered = recoveries(experiment).map((reaction) => ({
    ...fromCharges(reaction, enactment),
    ran: true,
  }));
  return [...declaredSupplies(experiment.reactions, enactment), ...recovered];
}

function declaredSupplies(
  reactions: readonly ReactionDeclaration[],
  enactment: Enactment,
): ReactionSupply[] {
  return reactions.map((reaction) => {
    const runs = enactment.reactions.filter(
      (run) => run.kind === 'declared' && run.reaction === reaction.id,
    );
    return runs.length > 0 ? fromRuns(reaction, runs, enactment) : fromCharges(reaction, enactment);
  });
}

/**
 * What a reaction used in all its runs, and what the last of them left over. That counts a reactant
 * which came in portions once, leaves out what a side reaction took in between or turned back, and
 * does not depend on the conversion.
 */
function fromRuns(
  reaction: ReactionDeclaration,
  runs: readonly ReactionRun[],
  { reactions }: Enactment,
): ReactionSupply {
  const last = runs.at(-1)!;
  const between = reactions.slice(reactions.indexOf(runs[0]!), reactions.indexOf(last));
  const undone_mmol = between.reduce((sum, run) => sum + undoneBy(run, reaction), 0);
  const extent_mmol = runs.reduce((sum, run) => sum + run.extent_mmol, 0) - undone_mmol;
  const supplies = last.available.map(({ substance, coefficient, amount_mmol }) => ({
    substance,
    coefficient,
    amount_mmol: amount_mmol + coefficient * (extent_mmol - last.extent_mmol),
  }));
  return { reaction, ran: true, extent_mmol, supplies };
}

/** How much of a reaction a side reaction turned back: a product of it into one of its reactants. */
function undoneBy(run: ReactionRun, { reactants, products }: ReactionDeclaration): number {
  if (run.kind !== 'side') return 0;
  const back = run.formed.some((each) => reactants.some((r) => r.substance.id === each.substance));
  if (!back) return 0;
  const taken = products.map(({ substance, coefficient }) => {
    const used = run.available.find((each) => each.substance === substance.id);
    return used === undefined ? 0 : (used.coefficient * run.extent_mmol) / coefficient;
  });
  return Math.max(0, ...taken);
}

function fromCharges(reaction: ReactionDeclaration, enactment: Enactment): ReactionSupply {
  const supplies = reaction.reactants.map(({ coefficient, substance }) => {
    let amount_mmol = 0;
    for (const charge of enactment.charges) {
      if (charge.material.substance.id !== substance.id) continue;
      amount_mmol += charge.measuredAs === 'excess' ? Infinity : (charge.amount_mmol ?? 0);
    }
    // What was only turned into its salt and back is not more of it
    const made = enactment.reactions.filter((run) => run.kind === 'declared' || amount_mmol === 0);
    for (const run of made) {
      for (const formed of run.formed) {
        if (formed.substance === substance.id) amount_mmol += formed.amount_mmol;
      }
    }
    return { substance: substance.id, coefficient, amount_mmol };
  });
  return { reaction, ran: false, extent_mmol: 0, supplies };
}

/** The reactant that runs out first; undefined where all are in excess without a figure. */
export function limitingOf(supplies: readonly Supply[]): Supply | undefined {
  let least: Supply | undefined;
  for (const supply of supplies) {
    if (!Number.isFinite(supply.amount_mmol)) continue;
    if (least === undefined || perEquation(supply) < perEquation(least)) least = supply;
  }
  return least;
}

export function perEquation({ amount_mmol, coefficient }: Supply): number {
  return amount_mmol / coefficient;
}
