import type { SubstanceTable } from '../chemistry/substance.ts';
import type { Move } from '../experiment/move.ts';
import type { Experiment, MaterialUse, VesselDeclaration } from '../experiment/step.ts';
import type { PlannedUse } from './charge.ts';
import { REST, planUse } from './charge.ts';
import { equivalentsBases } from './equivalents.ts';
import type { Policy } from './policy.ts';
import type { Program, ProgramLine } from './program.ts';
import type { ReactionPlan } from './reaction-plan.ts';
import { planReaction } from './reaction-plan.ts';
import { redoxAgents } from './redox-agents.ts';
import type { Shelf } from './shelf.ts';
import { emptyShelf, place, plainMatter } from './shelf.ts';
import type { SidePlan } from './side-reactions.ts';
import { planSideReactions } from './side-reactions.ts';
import type { VesselPlan } from './vessel.ts';
import { PHASES } from './vessel.ts';

export const UNEXPLAINED = 'unexplained matter';

/** What is the same for every run of one program: worked out once. */
export interface Compiled {
  readonly experiment: Experiment;
  readonly lines: readonly ProgramLine[];
  readonly shelf: Shelf;
  readonly uses: ReadonlyMap<string, PlannedUse>;
  readonly declared: readonly ReactionPlan[];
  readonly side: readonly SidePlan[];
  readonly vessels: readonly VesselPlan[];
  readonly vesselIndex: ReadonlyMap<string, number>;
  /** Declared products. */
  readonly isProduct: Uint8Array;
  /** Products, and what one declared reaction makes for another: never boiled off as a solvent. */
  readonly isKept: Uint8Array;
  /** Number of the line that takes a substance from the stock last; -1 where none does. */
  readonly lastCharge: Int32Array;
  /** Substances that a quench brings. */
  readonly quenchBrings: Uint8Array;
  readonly unexplained: number;
}

interface CacheEntry {
  readonly table: SubstanceTable;
  readonly tolerance: number;
  readonly compiled: Compiled;
}

const cache = new WeakMap<Program, CacheEntry>();

export function compile(program: Program, table: SubstanceTable, policy: Policy): Compiled {
  const entry = cache.get(program);
  if (entry?.table === table && entry.tolerance === policy.amountTolerance) return entry.compiled;
  const compiled = compileNow(program, policy);
  cache.set(program, { table, tolerance: policy.amountTolerance, compiled });
  return compiled;
}

function compileNow(program: Program, policy: Policy): Compiled {
  const { experiment, lines } = program;
  const shelf = emptyShelf();
  const taken = usesOf(lines);
  const basisOf = equivalentsBases(
    experiment,
    taken.map(({ use }) => use),
  );
  const uses = new Map<string, PlannedUse>();
  for (const { line, use } of taken) {
    const planned = planUse(shelf, line.stepId, use, basisOf, policy.amountTolerance);
    if (planned === undefined) continue;
    uses.set(use.id, planned);
    if (planned.components.length > 1)
      for (const part of planned.components) shelf.inSolution[part.substance] = true;
  }
  const charged = new Set(
    taken.flatMap(({ use }) => uses.get(use.id)?.components.map((part) => part.substance) ?? []),
  );
  const declared = experiment.reactions.map((reaction) => {
    const plan = planReaction(shelf, reaction);
    if (reaction.delivered === undefined) return plan;
    const agents = redoxAgents(reaction.delivered).flatMap((id) => shelf.byId.get(id) ?? []);
    return { ...plan, agents: agents.filter((i) => charged.has(i)) };
  });
  const products = experiment.products.map((product) => place(shelf, product.substance));
  place(shelf, plainMatter(REST, 'insoluble'));
  const unexplained = place(shelf, plainMatter(UNEXPLAINED, 'insoluble'));
  const side = planSideReactions(shelf, declared);
  const size = shelf.substances.length;
  const isProduct = new Uint8Array(size);
  for (const i of products) isProduct[i] = 1;
  const isKept = keptOf(shelf, isProduct, declared);
  const vessels = vesselPlans(experiment.vessels, lines);
  const lastCharge = new Int32Array(size).fill(-1);
  const quenchBrings = new Uint8Array(size);
  lines.forEach((line, n) => {
    for (const move of line.moves) {
      if (move.kind !== 'move' || move.from !== 'stock') continue;
      for (const part of uses.get(move.use.id)?.components ?? []) {
        lastCharge[part.substance] = n;
        if (line.verb === 'quench') quenchBrings[part.substance] = 1;
      }
    }
  });
  const vesselIndex = new Map(vessels.map((vessel, i) => [vessel.id, i]));
  return {
    experiment,
    lines,
    shelf,
    uses,
    declared,
    side,
    vessels,
    vesselIndex,
    isProduct,
    isKept,
    lastCharge,
    quenchBrings,
    unexplained,
  };
}

function usesOf(lines: readonly ProgramLine[]) {
  const seen = new Set<string>();
  const found: { readonly line: ProgramLine; readonly use: MaterialUse }[] = [];
  for (const line of lines)
    for (const move of line.moves)
      if (move.kind === 'move' && move.from === 'stock' && !seen.has(move.use.id)) {
        seen.add(move.use.id);
        found.push({ line, use: move.use });
      }
  return found;
}

/**
 * Products; intermediates; and where no product is declared, the organic products of the last
 * reaction.
 */
function keptOf(
  shelf: Shelf,
  isProduct: Uint8Array,
  declared: readonly ReactionPlan[],
): Uint8Array {
  const kept = isProduct.slice();
  declared.forEach((reaction, n) => {
    for (const { substance } of reaction.products) {
      const used = declared.some(
        (other, m) => m !== n && other.reactants.some((side) => side.substance === substance),
      );
      const last = n === declared.length - 1 && !isProduct.includes(1);
      if ((used || last) && shelf.hint[substance] === 'organic') kept[substance] = 1;
    }
  });
  return kept;
}

/** The declared vessels, and any that a move names all the same. */
function vesselPlans(
  declared: readonly VesselDeclaration[],
  lines: readonly ProgramLine[],
): VesselPlan[] {
  const plans = new Map<string, VesselPlan>();
  const add = (id: string, name: string, shape: VesselPlan['shape'], capacity_mL?: number) => {
    if (plans.has(id)) return;
    const accounts = PHASES.map((phase) => `vessel/${id}/${phase}`);
    const capacity = capacity_mL === undefined ? {} : { capacity_mL };
    plans.set(id, { id, name, shape, ...capacity, accounts });
  };
  for (const v of declared) add(v.id, v.name, v.shape, v.capacity_mL);
  for (const line of lines)
    for (const move of line.moves) for (const id of vesselsOf(move)) add(id, id, 'other');
  return [...plans.values()];
}

function vesselsOf(move: Move): string[] {
  if (move.kind !== 'move') return [move.vessel];
  const to = move.to.kind === 'vessel' ? [move.to.vessel] : [];
  return move.from === 'vessel' ? [move.vessel, ...to] : to;
}
