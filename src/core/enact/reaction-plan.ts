import { addCompositions, isNothing, scaleComposition } from '../chemistry/composition.ts';
import type { Composition } from '../chemistry/composition.ts';
import type { Substance } from '../chemistry/substance.ts';
import type { ReactionDeclaration, ReactionTerm, Span } from '../experiment/step.ts';
import type { Shelf } from './shelf.ts';
import { place } from './shelf.ts';

/** One side of a reaction, by shelf number. */
export interface Side {
  readonly substance: number;
  readonly coefficient: number;
}

/** A reaction as the kernel runs it. */
export interface ReactionPlan {
  readonly id: string;
  readonly kind: 'declared' | 'side';
  readonly account: string;
  readonly reactants: readonly Side[];
  readonly products: readonly Side[];
  readonly conversion: number;
  /** What the equation leaves out: for each mmol of extent, one mmol of this comes or goes. */
  readonly unwritten?: {
    readonly substance: number;
    readonly account: string;
    readonly comes: boolean;
  };
  /** `[O]` or `[H]` is delivered by one of these, by shelf number, where any is charged at all. */
  readonly agents?: readonly number[];
  /** False where a reactant has no molar mass, or there is nothing to react. */
  readonly runnable: boolean;
  readonly span?: Span;
}

/** `[O]` and `[H]`: what an oxidant or a reductant delivers; they come from the unwritten account. */
const DELIVERED = /^\[(O|H)\]$/;

/** Prepares a declared reaction. What its two sides differ by is drawn from `unwritten/…`. */
export function planReaction(shelf: Shelf, declared: ReactionDeclaration): ReactionPlan {
  const reactants = declared.reactants.filter((term) => !DELIVERED.test(term.name));
  const products = declared.products.filter(hasFormula);
  const runnable = reactants.length > 0 && reactants.every(hasFormula);
  const plan = {
    id: declared.id,
    kind: 'declared' as const,
    account: `reaction/${declared.id}`,
    reactants: sides(shelf, reactants),
    products: sides(shelf, products),
    conversion: Math.min(1, Math.max(0, declared.conversion)),
    runnable,
    span: declared.span,
  };
  if (!runnable) return plan;
  const unwritten = leftOut(declared.id, reactants, products);
  if (unwritten === undefined) return plan;
  const substance = place(shelf, unwritten.substance);
  const account = `unwritten/${declared.id}`;
  return { ...plan, unwritten: { substance, account, comes: unwritten.comes } };
}

function hasFormula(term: ReactionTerm): boolean {
  const mass = term.substance.molarMass_g_mol;
  return (
    term.substance.composition !== undefined &&
    mass !== undefined &&
    mass > 0 &&
    Number.isFinite(term.coefficient) &&
    term.coefficient > 0
  );
}

/** The same substance written twice on one side counts once, with both coefficients. */
function sides(shelf: Shelf, terms: readonly ReactionTerm[]): Side[] {
  const sum = new Map<number, number>();
  for (const term of terms) {
    const i = place(shelf, term.substance);
    sum.set(i, (sum.get(i) ?? 0) + term.coefficient);
  }
  return [...sum].map(([substance, coefficient]) => ({ substance, coefficient }));
}

/** Products less reactants, for one mmol of extent, as matter of its own. */
function leftOut(
  id: string,
  reactants: readonly ReactionTerm[],
  products: readonly ReactionTerm[],
): { readonly substance: Substance; readonly comes: boolean } | undefined {
  const parts: Composition[] = [];
  let mass_g_mol = 0;
  const count = (terms: readonly ReactionTerm[], sign: number) => {
    for (const term of terms) {
      parts.push(scaleComposition(term.substance.composition!, sign * term.coefficient));
      mass_g_mol += sign * term.coefficient * term.substance.molarMass_g_mol!;
    }
  };
  count(products, 1);
  count(reactants, -1);
  const difference = addCompositions(...parts);
  if (isNothing(difference)) return undefined;
  const comes = mass_g_mol >= 0;
  const name = `unwritten matter of ${id}`;
  const substance: Substance = {
    id: name,
    name,
    synonyms: [],
    composition: comes ? difference : scaleComposition(difference, -1),
    molarMass_g_mol: Math.abs(mass_g_mol),
    state: 'unknown',
    phase: 'organic',
    origin: 'formula',
    sources: {},
    hazardCodes: [],
  };
  return { substance, comes };
}
