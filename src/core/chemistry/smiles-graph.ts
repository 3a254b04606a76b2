/** A molecular graph as a SMILES string writes it: no geometry, no perception beyond the text. */
export interface Atom {
  /** Element symbol; hydrogen's isotopes 2 and 3 are D and T. */
  readonly symbol: string;
  readonly aromatic: boolean;
  /** Written without brackets: its hydrogens follow from its bonds. */
  readonly organic: boolean;
  /** Hydrogens written inside the brackets. */
  readonly hydrogens: number;
  readonly charge: number;
  /** Mass number, where one is written. */
  readonly isotope?: number;
  readonly at: number;
}

export interface Bond {
  readonly from: number;
  readonly to: number;
  /** 1 to 4; an aromatic or unwritten bond between aromatic atoms counts 1, and `aromatic` is set. */
  readonly order: number;
  readonly aromatic: boolean;
}

export interface SmilesGraph {
  readonly atoms: readonly Atom[];
  readonly bonds: readonly Bond[];
}

export class SmilesRefusal extends Error {
  constructor(
    message: string,
    readonly column: number,
  ) {
    super(message);
  }
}

/** For each atom, the indices of its bonds. */
export function bondsByAtom(graph: SmilesGraph): readonly (readonly number[])[] {
  const lists: number[][] = graph.atoms.map(() => []);
  graph.bonds.forEach((bond, i) => {
    lists[bond.from]!.push(i);
    lists[bond.to]!.push(i);
  });
  return lists;
}

export const otherEnd = (bond: Bond, atom: number): number =>
  bond.from === atom ? bond.to : bond.from;

/** The connected pieces of the graph, each a list of atom indices. */
export function pieces(graph: SmilesGraph): number[][] {
  const bonds = bondsByAtom(graph);
  const seen = new Uint8Array(graph.atoms.length);
  const found: number[][] = [];
  for (let start = 0; start < graph.atoms.length; start++) {
    if (seen[start]) continue;
    seen[start] = 1;
    const piece = [start];
    for (let next = 0; next < piece.length; next++)
      for (const b of bonds[piece[next]!]!) {
        const neighbour = otherEnd(graph.bonds[b]!, piece[next]!);
        if (seen[neighbour]) continue;
        seen[neighbour] = 1;
        piece.push(neighbour);
      }
    found.push(piece);
  }
  return found;
}

/**
 * Which bonds lie on a ring: all but the bridges, found by Tarjan's low-link numbers
 * (Tarjan, Inf. Process. Lett. 1974, 2, 160), walked with a stack of our own.
 */
export function ringBonds(graph: SmilesGraph): Uint8Array {
  const bonds = bondsByAtom(graph);
  const order = new Int32Array(graph.atoms.length).fill(-1);
  const low = new Int32Array(graph.atoms.length);
  const next = new Int32Array(graph.atoms.length);
  const inRing = new Uint8Array(graph.bonds.length).fill(1);
  let count = 0;
  for (let root = 0; root < graph.atoms.length; root++) {
    if (order[root] !== -1) continue;
    const path: { atom: number; by: number }[] = [{ atom: root, by: -1 }];
    order[root] = low[root] = count++;
    while (path.length > 0) {
      const { atom, by } = path.at(-1)!;
      const b = bonds[atom]![next[atom]!];
      if (b === undefined) {
        path.pop();
        const parent = path.at(-1)?.atom;
        if (parent === undefined) continue;
        low[parent] = Math.min(low[parent]!, low[atom]!);
        if (low[atom]! > order[parent]!) inRing[by] = 0;
        continue;
      }
      next[atom]!++;
      if (b === by) continue;
      const neighbour = otherEnd(graph.bonds[b]!, atom);
      if (order[neighbour] === -1) {
        order[neighbour] = low[neighbour] = count++;
        path.push({ atom: neighbour, by: b });
      } else low[atom] = Math.min(low[atom]!, order[neighbour]!);
    }
  }
  return inRing;
}
