import { bondsByAtom, otherEnd, ringBonds } from './smiles-graph.ts';
import type { Atom, SmilesGraph } from './smiles-graph.ts';
import { hydrogensOf } from './smiles-hydrogens.ts';
import { readGraph } from './smiles-read.ts';

export interface Link {
  readonly to: number;
  /** 1 to 3; 1 in an aromatic ring, where `aromatic` says more. */
  readonly order: number;
  readonly aromatic: boolean;
  readonly inRing: boolean;
}

/**
 * A structure as spectroscopy looks at it: atoms with their hydrogens on them (hydrogens written
 * as atoms are folded in and keep no links), aromatic rings the same whether they were written with
 * lower-case letters or with alternating double bonds.
 */
export interface Skeleton {
  readonly atoms: readonly Atom[];
  readonly links: readonly (readonly Link[])[];
  readonly hydrogens: readonly number[];
  readonly aromatic: readonly boolean[];
  /** Rings of three to six atoms. */
  readonly rings: readonly (readonly number[])[];
}

const LARGEST_RING = 6;

/** Rings of three to six atoms, each as a path of atoms, every ring once. */
function smallRings(graph: SmilesGraph, neighbours: readonly (readonly number[])[]): number[][] {
  const found: number[][] = [];
  const walk = (path: number[]): void => {
    const start = path[0]!;
    for (const next of neighbours[path.at(-1)!]!) {
      // Once only: the ring starts at its lowest atom and goes towards the lower second atom.
      if (next === start && path.length > 2 && path[1]! < path.at(-1)!) found.push([...path]);
      if (next <= start || path.includes(next) || path.length === LARGEST_RING) continue;
      walk([...path, next]);
    }
  };
  graph.atoms.forEach((_, atom) => walk([atom]));
  return found;
}

const LONE_PAIR = ['N', 'O', 'S', 'Se'];

/**
 * Aromatic rings among those that were written with alternating double bonds: six atoms that each
 * have their double bond in the ring or are in an aromatic ring already; five atoms, four with
 * double bonds in the ring and one with a lone pair.
 */
function aromaticAtoms(graph: SmilesGraph, rings: readonly (readonly number[])[]): boolean[] {
  const aromatic = graph.atoms.map((atom) => atom.aromatic);
  const doubles = graph.bonds.filter((bond) => bond.order === 2);
  let grew = true;
  while (grew) {
    grew = false;
    for (const ring of rings) {
      if (ring.length < 5 || ring.every((atom) => aromatic[atom])) continue;
      const inside = new Set(
        doubles
          .filter((bond) => ring.includes(bond.from) && ring.includes(bond.to))
          .flatMap((bond) => [bond.from, bond.to]),
      );
      const others = ring.filter((atom) => !inside.has(atom) && !aromatic[atom]);
      const six = ring.length === 6 && others.length === 0;
      const five =
        ring.length === 5 &&
        others.length === 1 &&
        LONE_PAIR.includes(graph.atoms[others[0]!]!.symbol) &&
        !doubles.some((bond) => bond.from === others[0] || bond.to === others[0]);
      if (!six && !five) continue;
      for (const atom of ring) aromatic[atom] = true;
      grew = true;
    }
  }
  return aromatic;
}

/** Throws a `SmilesRefusal` where the text is no structure. */
export function skeletonOf(smiles: string): Skeleton {
  const graph = readGraph(smiles.trim());
  const written = [...hydrogensOf(graph)];
  const bonds = bondsByAtom(graph);
  const folded = graph.atoms.map((atom, i) => {
    if (atom.symbol !== 'H' || bonds[i]!.length !== 1) return false;
    return graph.atoms[otherEnd(graph.bonds[bonds[i]![0]!]!, i)]!.symbol !== 'H';
  });
  const inRing = ringBonds(graph);
  const neighbours = bonds.map((list, i) =>
    list.filter((b) => inRing[b]).map((b) => otherEnd(graph.bonds[b]!, i)),
  );
  const rings = smallRings(graph, neighbours);
  const aromatic = aromaticAtoms(graph, rings);
  const aromaticRings = rings.filter((ring) => ring.every((atom) => aromatic[atom]));
  const isAromatic = (from: number, to: number): boolean =>
    aromaticRings.some((ring) => ring.includes(from) && ring.includes(to));
  const links = graph.atoms.map((_, i): Link[] =>
    bonds[i]!.flatMap((b) => {
      const bond = graph.bonds[b]!;
      const to = otherEnd(bond, i);
      if (folded[i] || folded[to]) return [];
      const delocalised = bond.aromatic || (inRing[b] === 1 && isAromatic(i, to));
      const order = delocalised ? 1 : bond.order;
      return [{ to, order, aromatic: delocalised, inRing: inRing[b] === 1 }];
    }),
  );
  graph.atoms.forEach((_, i) => {
    if (folded[i]) written[otherEnd(graph.bonds[bonds[i]![0]!]!, i)]!++;
  });
  return {
    atoms: graph.atoms,
    links,
    hydrogens: written.map((count, i) => (folded[i] ? 0 : count)),
    aromatic,
    rings,
  };
}

/** Four single bonds, hydrogens counted. */
export function isTetrahedral(s: Skeleton, atom: number): boolean {
  return (
    !s.aromatic[atom] &&
    s.links[atom]!.every((link) => link.order === 1) &&
    s.links[atom]!.length + s.hydrogens[atom]! === 4
  );
}

export const isCarbon = (s: Skeleton, atom: number): boolean => s.atoms[atom]!.symbol === 'C';

/** A carbon that bears a double-bonded oxygen (or sulfur). */
export function isCarbonyl(s: Skeleton, atom: number): boolean {
  return (
    isCarbon(s, atom) &&
    s.links[atom]!.some((l) => l.order === 2 && ['O', 'S'].includes(s.atoms[l.to]!.symbol))
  );
}
