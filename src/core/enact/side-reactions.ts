import { isNothing, addCompositions, scaleComposition } from '../chemistry/composition.ts';
import type { Term } from '../chemistry/equation.ts';
import { readEquation } from '../chemistry/equation.ts';
import { findSubstance } from '../chemistry/find.ts';
import type { Substance } from '../chemistry/substance.ts';
import { tableWith } from '../chemistry/substance.ts';
import { rowsOf } from '../facts/table.ts';
import sideTable from '../facts/side_reactions.json' with { type: 'json' };
import type { ReactionPlan, Side } from './reaction-plan.ts';
import type { Shelf } from './shelf.ts';
import { place } from './shelf.ts';

export type SideTrigger = 'contact' | 'activation' | 'quench';

interface SideTerm {
  readonly substance: Substance;
  readonly coefficient: number;
}

/** One row of data/side_reactions.csv, its names looked up. */
export interface SideReaction {
  readonly id: string;
  readonly trigger: SideTrigger;
  readonly reactants: readonly SideTerm[];
  readonly products: readonly SideTerm[];
}

export interface SidePlan extends ReactionPlan {
  readonly trigger: SideTrigger;
  /** Declared reactions, by place, that have two of its reactants, or an organic one: those go first. */
  readonly yieldsTo: readonly number[];
  /** Declared reactions with any of its reactants: before their wait they go first if they can run. */
  readonly sharesWith: readonly number[];
}

/** A row that cannot be used, and why: for the test of the table. */
export interface SideReactionFault {
  readonly id: string;
  readonly message: string;
}

let cached:
  { readonly reactions: SideReaction[]; readonly faults: SideReactionFault[] } | undefined;

/** The fast side reactions that the kernel knows, read once. */
export function sideReactions(): readonly SideReaction[] {
  return (cached ??= readSideReactions()).reactions;
}

export function sideReactionFaults(): readonly SideReactionFault[] {
  return (cached ??= readSideReactions()).faults;
}

function readSideReactions() {
  const table = tableWith([]);
  const reactions: SideReaction[] = [];
  const faults: SideReactionFault[] = [];
  for (const row of rowsOf(sideTable)) {
    const id = row['id'] ?? '';
    const read = readEquation(row['equation'] ?? '');
    if (!read.ok) {
      faults.push({ id, message: read.message });
      continue;
    }
    const missing: string[] = [];
    const terms = (side: readonly Term[]): SideTerm[] =>
      side.flatMap((term) => {
        const found = findSubstance(table, term.name);
        if (found.kind === 'found' && found.substance.composition !== undefined)
          return [{ substance: found.substance, coefficient: term.coefficient ?? 1 }];
        missing.push(term.name);
        return [];
      });
    const reactants = terms(read.equation.left);
    const products = terms(read.equation.right);
    const trigger = (row['trigger'] ?? '') as SideTrigger;
    if (missing.length > 0) faults.push({ id, message: `not found: ${missing.join(', ')}` });
    else if (!balances(reactants, products)) faults.push({ id, message: 'does not balance' });
    else reactions.push({ id, trigger, reactants, products });
  }
  return { reactions, faults };
}

function balances(reactants: readonly SideTerm[], products: readonly SideTerm[]): boolean {
  const scaled = (terms: readonly SideTerm[], sign: number) =>
    terms.map((t) => scaleComposition(t.substance.composition!, sign * t.coefficient));
  return isNothing(addCompositions(...scaled(reactants, -1), ...scaled(products, 1)));
}

/** Those side reactions that the matter of this experiment can come to, in the table's order. */
export function planSideReactions(shelf: Shelf, declared: readonly ReactionPlan[]): SidePlan[] {
  const rows = sideReactions();
  const reached = new Set<SideReaction>();
  for (let grew = true; grew;) {
    grew = false;
    for (const row of rows) {
      if (reached.has(row) || !row.reactants.every((t) => shelf.byId.has(t.substance.id))) continue;
      reached.add(row);
      grew = true;
      for (const term of row.products) place(shelf, term.substance);
    }
  }
  return rows
    .filter((row) => reached.has(row))
    .map((row) => {
      const reactants = sides(shelf, row.reactants);
      const has = (plan: ReactionPlan, side: Side) =>
        plan.reactants.some((other) => other.substance === side.substance);
      // What a declared reaction is to be made from is left to it: 2-naphthol in alkali, an amine in acid
      const starts = (side: Side) =>
        shelf.hint[side.substance] === 'organic' &&
        shelf.substances[side.substance]!.composition?.counts.has('C') === true;
      const yieldsTo = declared.flatMap((plan, i) => {
        const shared = reactants.filter((side) => has(plan, side));
        return shared.length >= 2 || shared.some(starts) ? [i] : [];
      });
      const sharesWith = declared.flatMap((plan, i) =>
        reactants.some((side) => has(plan, side)) ? [i] : [],
      );
      return {
        id: row.id,
        kind: 'side',
        account: `reaction/${row.id}`,
        reactants,
        products: sides(shelf, row.products),
        conversion: 1,
        runnable: true,
        trigger: row.trigger,
        yieldsTo,
        sharesWith,
      };
    });
}

function sides(shelf: Shelf, terms: readonly SideTerm[]): Side[] {
  return terms.map((t) => ({ substance: place(shelf, t.substance), coefficient: t.coefficient }));
}
