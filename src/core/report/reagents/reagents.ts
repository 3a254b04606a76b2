import type { Charge, Enactment } from '../../enact/enactment.ts';
import type { Experiment, MaterialUse, Step } from '../../experiment/step.ts';
import type { Basis } from '../../ledger/posting.ts';
import { figuresComputed, figuresGiven } from '../common/figures.ts';
import { theoryReport } from '../theory/theory.ts';
import type { Named, ReactantTheory, ReactionTheory, TheoryReport } from '../theory/theory.ts';
import { beginsWorkUp, isForReaction, roleOf } from './role.ts';
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
  /** Significant figures of the amount as written or read, in all; null where it has no figure. */
  readonly figuresGiven: number | null;
  /** Of what is worked out from it. */
  readonly figures: number;
  /** It runs out first in `reaction`. */
  readonly limits: boolean;
  /** The declared reaction that it is counted in. */
  readonly reaction: string | null;
  /** What limits a product in the end, followed up all the reactions before. */
  readonly decides: boolean;
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
  readonly reaction: ReactionTheory | undefined;
  readonly charges: Charge[];
}

/** The reagent table of a plan or of a bench: amounts, equivalents, what limits, what is left. */
export function reagentTable(experiment: Experiment, enactment: Enactment): ReagentTable {
  const theory = theoryReport(experiment, enactment);
  const found = findingsOn(experiment, enactment, theory);
  const groups = new Map<string, Group>();
  for (const charge of enactment.charges) {
    const role = found.roleOf(charge);
    const reaction = found.reactionOf(charge);
    const where = role === 'reactant' ? (reaction?.reaction ?? '') : '';
    const key = `${charge.material.name}|${role}|${where}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { role, reaction, charges: [charge] });
    else group.charges.push(charge);
  }
  const deciding = decidingOf(theory);
  const rows = [...groups.values()].map((group) => rowOf(group, deciding));
  return { rows, products: productRows(enactment, theory), theory };
}

interface Findings {
  readonly roleOf: (charge: Charge) => ReagentRole;
  readonly reactionOf: (charge: Charge) => ReactionTheory | undefined;
}

function findingsOn(experiment: Experiment, enactment: Enactment, theory: TheoryReport): Findings {
  const { steps, reactions, products } = experiment;
  const order = new Map(steps.map((step, i) => [step.id, i]));
  const placeOf = (step: string): number => order.get(step) ?? 0;
  const uses = new Map<string, { use: MaterialUse; step: Step }>();
  for (const step of steps)
    for (const use of step.slots.materials ?? []) uses.set(use.id, { use, step });
  const runs = enactment.reactions.filter((run) => run.kind === 'declared' && run.extent_mmol > 0);
  const lastRun = runs.length === 0 ? Infinity : Math.max(...runs.map((run) => placeOf(run.step)));
  const workUp = steps.findIndex((step, i) => i >= lastRun && beginsWorkUp(step));
  const reactionOf = (charge: Charge) =>
    reactionIn(theory, charge.material.substance.id, (ids) => {
      const next = runs.find(
        (run) => ids.has(run.reaction) && placeOf(run.step) >= placeOf(charge.step),
      );
      return next?.reaction;
    });
  const totals = new Map<string, number>();
  for (const { use, material, amount_mmol = 0 } of enactment.charges) {
    const taken = uses.get(use);
    if (taken === undefined || !isForReaction(taken.step)) continue;
    const { id } = material.substance;
    totals.set(id, (totals.get(id) ?? 0) + amount_mmol);
  }
  const role = (charge: Charge): ReagentRole => {
    const taken = uses.get(charge.use);
    if (taken === undefined) return 'reagent';
    const amount = totals.get(charge.material.substance.id) ?? charge.amount_mmol;
    const base = limitingIn(reactionOf(charge))?.amount_mmol;
    const equivalents =
      charge.amount_mmol === undefined || amount === undefined || !base ? undefined : amount / base;
    const byVolume = charge.measuredAs === 'volume';
    const late = workUp >= 0 && placeOf(charge.step) > workUp;
    return roleOf({ ...taken, reactions, products, equivalents, byVolume, late });
  };
  return { roleOf: role, reactionOf };
}

/**
 * The reaction that a substance is counted in: of those that it takes part in the one that runs
 * next, or the first; where it takes part in none, the first of all.
 */
function reactionIn(
  theory: TheoryReport,
  substance: string,
  next: (among: ReadonlySet<string>) => string | undefined,
): ReactionTheory | undefined {
  const within = theory.reactions.filter((each) =>
    each.reactants.some((reactant) => reactant.substance === substance),
  );
  if (within.length < 2) return within[0] ?? theory.reactions[0];
  const id = next(new Set(within.map((each) => each.reaction)));
  return within.find((each) => each.reaction === id) ?? within[0];
}

function limitingIn(reaction: ReactionTheory | undefined): ReactantTheory | undefined {
  return reaction?.reactants.find((each) => each.limits);
}

/** What was charged and limits a declared product; with none declared, what limits anything. */
function decidingOf({ products, reactions }: TheoryReport): ReadonlySet<string> {
  const made = products.filter((each) => each.role === 'product');
  const wanted = new Set((made.length > 0 ? made : products).flatMap((each) => each.reactions));
  return new Set(
    reactions.flatMap(({ reaction, limitingCharged }) =>
      wanted.has(reaction) && limitingCharged !== undefined ? [limitingCharged.substance] : [],
    ),
  );
}

function rowOf({ role, reaction, charges }: Group, deciding: ReadonlySet<string>): ReagentRow {
  const [first] = charges as [Charge, ...Charge[]];
  const { material } = first;
  const { substance } = material;
  const amount_mmol = total(charges.map((each) => each.amount_mmol));
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
    figuresGiven: givenFigures(charges),
    figures: figuresComputed(charges),
    limits: reactant?.limits ?? false,
    reaction: reactant === undefined ? null : reaction!.reaction,
    decides: role === 'reactant' && deciding.has(substance.id),
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

/** Of all that is taken, where all of it is measured alike. */
function givenFigures(charges: readonly Charge[]): number | null {
  const { measuredAs } = charges[0]!;
  if (charges.some((each) => each.measuredAs !== measuredAs)) return null;
  const totals: Partial<Record<Charge['measuredAs'], number | null>> = {
    mass: total(charges.map((each) => each.mass_g)),
    volume: total(charges.map((each) => each.volume_mL)),
    amount: total(charges.map((each) => each.amount_mmol)),
  };
  const sum = totals[measuredAs] ?? null;
  return sum === null ? null : (figuresGiven(charges, sum) ?? null);
}

/** Significant figures with which a number of a row is shown. */
export function figuresIn(
  row: Pick<ReagentRow, 'measuredAs' | 'figuresGiven' | 'figures'>,
  measure: Charge['measuredAs'],
): number {
  return row.measuredAs === measure ? (row.figuresGiven ?? row.figures) : row.figures;
}

/** "20 %", "206 %": an excess to the last figure of the equivalents beside it. */
export function excessFigures({ excess_percent, figures }: ReagentRow): number {
  return (excess_percent ?? 0) >= 100 ? figures : 2;
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
