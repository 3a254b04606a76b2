import type { Experiment, MaterialUse } from '../experiment/step.ts';
import { readMeasures } from './measures.ts';
import type { Measures } from './measures.ts';

/** What equivalents and mol% are counted on: mmol of one substance, and its rounding as a share. */
export interface EquivalentsBasis {
  readonly name: string;
  readonly amount_mmol: number;
  readonly relativeHalf: number;
}

/** mmol of the material's own substance in one gram, undefined without a molar mass. */
export function solutePerGram_mmol(use: MaterialUse): number | undefined {
  const material = use.material;
  const molarMass = material?.substance.molarMass_g_mol;
  if (material === undefined || molarMass === undefined || !(molarMass > 0)) return undefined;
  const own = material.composition.find((part) => part.substance.id === material.substance.id);
  const fraction = own?.massFraction ?? (material.composition.length === 0 ? 1 : 0);
  return (fraction * 1000) / molarMass;
}

/** How often a use is taken. */
export function takings(use: MaterialUse): number {
  let times = Math.max(1, use.repeat);
  for (const amount of use.amounts)
    if (amount.kind !== 'unquantified' && amount.repeat !== undefined)
      times = Math.max(times, amount.repeat);
  return times;
}

/** mmol of one taking from its mass, volume or amount, and half a unit of its last digit. */
export function writtenAmount_mmol(
  use: MaterialUse,
  measures: Measures,
): { readonly value: number; readonly half: number } | undefined {
  const perGram = solutePerGram_mmol(use);
  const density = use.material?.density_g_mL;
  if (perGram !== undefined && perGram > 0) {
    const { mass_g, volume_mL } = measures;
    if (mass_g !== undefined) return { value: mass_g.value * perGram, half: mass_g.half * perGram };
    if (volume_mL !== undefined && density !== undefined) {
      const factor = perGram * density;
      return { value: volume_mL.value * factor, half: volume_mL.half * factor };
    }
  }
  return measures.amount_mmol;
}

/**
 * Finds what the equivalents of a use are counted on, whatever the order of the sentences: the
 * declared basis of its reaction, else what is written with one equivalent (in its reaction, or
 * last before it), else the reactant charged first.
 */
export function equivalentsBases(
  experiment: Experiment,
  uses: readonly MaterialUse[],
): (use: MaterialUse) => EquivalentsBasis | undefined {
  const facts = uses.map((use) => {
    const measures = readMeasures(use.amounts);
    const amount = writtenAmount_mmol(use, measures);
    return { use, id: use.material?.substance.id, measures, amount };
  });
  const total = (id: string): EquivalentsBasis | undefined => {
    let amount_mmol = 0;
    let half = 0;
    let name = id;
    for (const f of facts) {
      if (f.id !== id || f.amount === undefined) continue;
      amount_mmol += f.amount.value * takings(f.use);
      half += f.amount.half * takings(f.use);
      name = f.use.material?.substance.name ?? id;
    }
    if (!(amount_mmol > 0)) return undefined;
    return { name, amount_mmol, relativeHalf: half / amount_mmol };
  };
  const reactionOf = (id: string | undefined) =>
    experiment.reactions.find((r) => r.reactants.some((t) => t.substance.id === id)) ??
    experiment.reactions[0];
  const find = (use: MaterialUse): EquivalentsBasis | undefined => {
    const reaction = reactionOf(use.material?.substance.id);
    const among = (id: string | undefined) =>
      reaction === undefined || reaction.reactants.some((t) => t.substance.id === id);
    const declared = reaction?.basis ?? experiment.basis;
    if (declared !== undefined) {
      const basis = total(declared);
      if (basis !== undefined) return basis;
    }
    const one = facts.find(
      (f) => f.amount !== undefined && among(f.id) && f.measures.equivalents?.value === 1,
    );
    const at = facts.findIndex((f) => f.use === use);
    const units = facts.filter(
      (f) => f.amount !== undefined && f.measures.equivalents?.value === 1,
    );
    const before = units.filter((f) => facts.indexOf(f) <= at).at(-1) ?? units[0];
    const first = one ?? before ?? facts.find((f) => f.amount !== undefined && among(f.id));
    return first?.id === undefined ? undefined : total(first.id);
  };
  const known = new Map<string, EquivalentsBasis | undefined>();
  return (use) => {
    if (!known.has(use.id)) known.set(use.id, find(use));
    return known.get(use.id);
  };
}
