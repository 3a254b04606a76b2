import type { Charge, Enactment } from '../../enact/enactment.ts';
import type { Experiment, MaterialUse, Step } from '../../experiment/step.ts';
import type { Basis } from '../../ledger/posting.ts';
import { theoryReport } from '../theory/theory.ts';
import type { Named, ReactantTheory, ReactionTheory, TheoryReport } from '../theory/theory.ts';
import { roleOf } from './role.ts';
import type { ReagentRole } from './role.ts';

/** Where a number of a row comes from, for the question "why?". */
export interface NumberSource {
  readonly of: 'identity' | 'density' | 'composition' | 'meltingPoint' | 'boilingPoint';
  readonly source: string;
}

/** A material with everything that the procedure takes of it for one purpose. */
export interface ReagentRow extends Named {
  /** As on the bottle: "2 M hydrochloric acid". `substance` is its solute. */
  readonly material: string;
  readonly role: ReagentRole;
  readonly uses: readonly string[];
  readonly steps: readonly string[];
  readonly molarMass_g_mol: number | null;
  readonly density_g_mL: number | null;
  readonly strength: string | null;
  readonly purity_percent: number | null;
  readonly mass_g: number;
  readonly volume_mL: number | null;
  /** Of the substance: of a solution, its solute. null where it has no formula or no figure. */
  readonly amount_mmol: number | null;
  /** Moles for each mole of the limiting reagent. */
  readonly equivalents: number | null;
  readonly measuredAs: Charge['measuredAs'];
  readonly limits: boolean;
  readonly left_mmol: number | null;
  readonly excess_percent: number | null;
  readonly meltingPoint_C: number | null;
  readonly boilingPoint_C: number | null;
  readonly hazardCodes: readonly string[];
  readonly basis: Basis;
  readonly assumed: readonly string[];
  readonly sources: readonly NumberSource[];
}

export interface ReagentProductRow extends Named {
  readonly role: 'product' | 'intermediate' | 'by-product';
  readonly molarMass_g_mol: number | null;
  readonly amount_mmol: number;
  /** In theory. */
  readonly mass_g: number | null;
  readonly meltingPoint_C: number | null;
  readonly boilingPoint_C: number | null;
  readonly hazardCodes: readonly string[];
}

export interface ReagentTable {
  readonly rows: readonly ReagentRow[];
  readonly products: readonly ReagentProductRow[];
  readonly theory: TheoryReport;
}

interface Group {
  readonly role: ReagentRole;
  readonly charges: Charge[];
}

/** The reagent table of a plan or of a bench: amounts, equivalents, what limits, what is left. */
export function reagentTable(experiment: Experiment, enactment: Enactment): ReagentTable {
  const theory = theoryReport(experiment, enactment);
  const uses = new Map<string, { use: MaterialUse; step: Step }>();
  for (const step of experiment.steps) {
    for (const use of step.slots.materials ?? []) uses.set(use.id, { use, step });
  }
  const groups = new Map<string, Group>();
  for (const charge of enactment.charges) {
    const taken = uses.get(charge.use);
    const equivalents = equivalentsOf(charge, theory);
    const role =
      taken === undefined
        ? 'reagent'
        : roleOf(taken.use, taken.step, experiment.reactions, equivalents);
    const key = `${charge.material.name}|${role}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { role, charges: [charge] });
    else group.charges.push(charge);
  }
  const rows = [...groups.values()].map((group) => rowOf(group, theory));
  return { rows, products: productRows(enactment, theory), theory };
}

/** The reaction that a substance is counted in: the first that it takes part in, or the first. */
function reactionOf(substance: string, theory: TheoryReport): ReactionTheory | undefined {
  const within = theory.reactions.find((each) =>
    each.reactants.some((reactant) => reactant.substance === substance),
  );
  return within ?? theory.reactions[0];
}

function limitingIn(reaction: ReactionTheory | undefined): ReactantTheory | undefined {
  return reaction?.reactants.find((each) => each.limits);
}

function equivalentsOf(charge: Charge, theory: TheoryReport): number | undefined {
  const limiting = limitingIn(reactionOf(charge.material.substance.id, theory));
  if (charge.amount_mmol === undefined || !limiting?.amount_mmol) return undefined;
  return charge.amount_mmol / limiting.amount_mmol;
}

function rowOf({ role, charges }: Group, theory: TheoryReport): ReagentRow {
  const [first] = charges as [Charge, ...Charge[]];
  const { material } = first;
  const { substance } = material;
  const amount_mmol = total(charges.map((each) => each.amount_mmol));
  const reaction = reactionOf(substance.id, theory);
  const limiting = limitingIn(reaction);
  const reactant =
    role === 'reactant'
      ? reaction?.reactants.find((each) => each.substance === substance.id)
      : undefined;
  const base = limiting?.amount_mmol ?? 0;
  return {
    substance: substance.id,
    name: substance.name,
    material: material.name,
    role,
    uses: charges.map((each) => each.use),
    steps: [...new Set(charges.map((each) => each.step))],
    molarMass_g_mol: substance.molarMass_g_mol ?? null,
    density_g_mL: material.density_g_mL ?? null,
    strength: strengthText(first),
    purity_percent: material.purity_percent ?? null,
    mass_g: charges.reduce((sum, each) => sum + each.mass_g, 0),
    volume_mL: total(charges.map((each) => each.volume_mL)),
    amount_mmol,
    equivalents: amount_mmol === null || !(base > 0) ? null : amount_mmol / base,
    measuredAs: first.measuredAs,
    limits: reactant?.limits ?? false,
    left_mmol: reactant?.left_mmol ?? null,
    excess_percent: reactant?.excess_percent ?? null,
    meltingPoint_C: substance.meltingPoint_C ?? null,
    boilingPoint_C: substance.boilingPoint_C ?? null,
    hazardCodes: substance.hazardCodes,
    basis: weakest(charges),
    assumed: [...new Set(charges.flatMap((each) => each.assumed))],
    sources: sourcesOf(first),
  };
}

/** null where none has a figure, or where one of them has none. */
function total(values: readonly (number | undefined)[]): number | null {
  let sum = 0;
  for (const value of values) {
    if (value === undefined || !Number.isFinite(value)) return null;
    sum += value;
  }
  return sum;
}

/** A row is as well known as the least well known of its charges. */
function weakest(charges: readonly Charge[]): Basis {
  const bases = new Set(charges.map((each) => each.basis));
  if (bases.has('assumed')) return 'assumed';
  return bases.has('planned') ? 'planned' : 'measured';
}

function strengthText({ material }: Charge): string | null {
  const { strength } = material;
  if (strength === undefined) return null;
  const value = strength.value === undefined ? '' : String(strength.value);
  const texts: Record<typeof strength.kind, string> = {
    molarity: `${value} mol/L`,
    massPercent: `${value} % w/w`,
    volumePercent: `${value} % v/v`,
    massVolumePercent: `${value} % w/v`,
    saturated: 'saturated',
    dilute: 'dilute',
  };
  return texts[strength.kind];
}

function sourcesOf({ material }: Charge): NumberSource[] {
  const { substance } = material;
  const sources: NumberSource[] = [];
  const keep = (of: NumberSource['of'], source: string | undefined): void => {
    if (source !== undefined && source !== '') sources.push({ of, source });
  };
  keep('identity', substance.sources.identity);
  keep('density', material.densitySource ?? substance.sources.density);
  keep('composition', material.compositionSource);
  keep('meltingPoint', substance.sources.meltingPoint);
  keep('boilingPoint', substance.sources.boilingPoint);
  return sources;
}

function productRows(enactment: Enactment, theory: TheoryReport): ReagentProductRow[] {
  return theory.products.map((product) => {
    const substance = enactment.substances.get(product.substance);
    return {
      substance: product.substance,
      name: product.name,
      role: product.role,
      molarMass_g_mol: product.molarMass_g_mol,
      amount_mmol: product.amount_mmol,
      mass_g: product.mass_g,
      meltingPoint_C: substance?.meltingPoint_C ?? null,
      boilingPoint_C: substance?.boilingPoint_C ?? null,
      hazardCodes: substance?.hazardCodes ?? [],
    };
  });
}
