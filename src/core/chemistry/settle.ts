import { balance, describeExcess, isBalanced } from './balance.ts';
import type { SideNames } from './balance.ts';
import type { Composition } from './composition.ts';
import type { Term } from './equation.ts';

/** The coefficients that an equation is used with, or why it has none. */
export type Settlement =
  | {
      readonly kind: 'settled';
      readonly left: readonly number[];
      readonly right: readonly number[];
      /** `written`: it balances as it stands; `balanced`: no number was written and we found them. */
      readonly by: 'written' | 'balanced';
    }
  | {
      readonly kind: 'unsettled';
      readonly message: string;
      /** Coefficients that would do, where there is one answer. */
      readonly suggestion?: { readonly left: readonly number[]; readonly right: readonly number[] };
    };

export interface Side {
  readonly terms: readonly Term[];
  readonly compositions: readonly Composition[];
}

/**
 * Decides an equation's coefficients as a chemist would: what balances as written, no number
 * meaning one, is left alone (many organic equations are, and could not be settled from their
 * atoms: aspirin from salicylic acid and acetic anhydride is one); an equation without numbers is
 * balanced; one with numbers that do not balance is handed back with what is too much or too
 * little, and never silently corrected.
 */
export function settle(left: Side, right: Side): Settlement {
  const names: SideNames = {
    left: left.terms.map((term) => term.name),
    right: right.terms.map((term) => term.name),
  };
  const written = (side: Side): number[] => side.terms.map((term) => term.coefficient ?? 1);
  const portions = (side: Side): { c: Composition; n: number }[] =>
    side.compositions.map((c, i) => ({ c, n: written(side)[i] ?? 1 }));
  const { balanced, excess } = isBalanced(portions(left), portions(right));
  if (balanced)
    return { kind: 'settled', left: written(left), right: written(right), by: 'written' };
  const answer = balance(left.compositions, right.compositions, names);
  const anyWritten = [...left.terms, ...right.terms].some((term) => term.coefficient !== null);
  if (!anyWritten && answer.kind === 'balanced')
    return { kind: 'settled', left: answer.left, right: answer.right, by: 'balanced' };
  if (answer.kind === 'balanced')
    return {
      kind: 'unsettled',
      message: `As written, ${describeExcess(excess)}.`,
      suggestion: { left: answer.left, right: answer.right },
    };
  const said = anyWritten ? `As written, ${describeExcess(excess)}. ` : '';
  return { kind: 'unsettled', message: said + answer.message };
}
