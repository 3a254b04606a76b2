import { readSmiles } from './smiles.ts';

export type ReactionSmilesReading =
  | {
      readonly ok: true;
      readonly reactants: readonly string[];
      readonly agents: readonly string[];
      readonly products: readonly string[];
    }
  | { readonly ok: false; readonly message: string; readonly column: number };

/**
 * Joins ions that follow one another until their charges cancel, so that `[Na+].[BH4-]` stays the
 * one substance that is weighed. Ions whose charges never cancel stay apart.
 */
function joinIons(parts: readonly string[], charges: readonly number[]): string[] {
  const joined: string[] = [];
  for (let i = 0; i < parts.length; i++) {
    let sum = charges[i]!;
    let end = i;
    while (sum !== 0 && end + 1 < parts.length && charges[end + 1] !== 0) sum += charges[++end]!;
    if (sum !== 0) end = i;
    joined.push(parts.slice(i, end + 1).join('.'));
    i = end;
  }
  return joined;
}

/**
 * Reads `reactants>agents>products`, each side a list of SMILES separated by dots (Daylight theory
 * manual, reaction SMILES). Atom classes are read past; a mistake comes with its place.
 */
export function readReactionSmiles(text: string): ReactionSmilesReading {
  const sides = text.split('>');
  if (sides.length !== 3)
    return {
      ok: false,
      message: 'A reaction in SMILES has two > signs: reactants>agents>products.',
      column: Math.max(0, text.lastIndexOf('>')),
    };
  const lists: string[][] = [];
  let column = 0;
  for (const side of sides) {
    const parts = side.trim() === '' ? [] : side.split('.');
    const charges: number[] = [];
    for (const part of parts) {
      const reading = readSmiles(part);
      if (!reading.ok)
        return { ok: false, message: reading.message, column: column + reading.column };
      charges.push(reading.composition.charge);
      column += part.length + 1;
    }
    if (parts.length === 0) column += side.length + 1;
    lists.push(
      joinIons(
        parts.map((part) => part.trim()),
        charges,
      ),
    );
  }
  const [reactants = [], agents = [], products = []] = lists;
  if (reactants.length === 0 || products.length === 0)
    return { ok: false, message: 'A reaction has reactants and products.', column: 0 };
  return { ok: true, reactants, agents, products };
}
