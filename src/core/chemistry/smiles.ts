import { addCompositions, compositionOf } from './composition.ts';
import type { Composition } from './composition.ts';
import { elementOf } from './element.ts';
import { readFormula } from './formula.ts';
import { SmilesRefusal, pieces } from './smiles-graph.ts';
import { hydrogensOf } from './smiles-hydrogens.ts';
import { readGraph } from './smiles-read.ts';

export type SmilesReading =
  | {
      readonly ok: true;
      readonly composition: Composition;
      /** One composition for each piece that no bond joins to another. */
      readonly fragments: readonly Composition[];
      /** Atoms in all, hydrogens among them. */
      readonly atoms: number;
      readonly hasMetal: boolean;
      /** Any fragment carries a charge. */
      readonly ionic: boolean;
      /** A mass number is written that the composition cannot show: it counts as the element. */
      readonly labelled: boolean;
    }
  | { readonly ok: false; readonly message: string; readonly column: number };

/**
 * Composition, charge and fragments of a structure in SMILES (OpenSMILES specification, 2016). A
 * reader, not a toolkit: it counts atoms and refuses what cannot be, and knows no stereochemistry
 * beyond its spelling.
 */
export function readSmiles(text: string): SmilesReading {
  const start = text.length - text.trimStart().length;
  try {
    const graph = readGraph(text.trim());
    const hydrogens = hydrogensOf(graph);
    const fragments = pieces(graph).map((piece) =>
      compositionOf(
        piece.flatMap((i) => [[graph.atoms[i]!.symbol, 1] as const, ['H', hydrogens[i]!] as const]),
        piece.reduce((charge, i) => charge + graph.atoms[i]!.charge, 0),
      ),
    );
    return {
      ok: true,
      composition: addCompositions(...fragments),
      fragments,
      atoms: graph.atoms.length + hydrogens.reduce((sum, count) => sum + count, 0),
      hasMetal: graph.atoms.some((atom) => elementOf(atom.symbol)!.isMetal),
      ionic: fragments.some((fragment) => fragment.charge !== 0),
      labelled: graph.atoms.some(
        (atom) => atom.isotope !== undefined && !(atom.symbol in HYDROGENS),
      ),
    };
  } catch (refusal) {
    if (!(refusal instanceof SmilesRefusal)) throw refusal;
    return { ok: false, message: refusal.message, column: refusal.column + start };
  }
}

const HYDROGENS = { H: 1, D: 2, T: 3 };

/**
 * Whether a word is meant as SMILES and not as a name or a formula. Where it could be either
 * (`CO`, `[O]`), it is the formula: a bare string of atoms is SMILES only from three atoms on, or
 * when it holds a carbon chain.
 */
export function looksLikeSmiles(text: string): boolean {
  const word = text.trim();
  if (/\s/.test(word) || !readSmiles(word).ok) return false;
  if (/\[[^\]]*[+-]\d*\]/.test(word)) return true;
  return !readFormula(word).ok || /CC(?!l)|^(?:Cl|Br|[BCNOPSFI]){3,}$/.test(word);
}
