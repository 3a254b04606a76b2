import { SmilesRefusal, bondsByAtom, ringBonds } from './smiles-graph.ts';
import type { Atom, SmilesGraph } from './smiles-graph.ts';
import { unmatched } from './matching.ts';

/** Normal valences (OpenSMILES specification, 2016, section 3.1.5). Grammar of SMILES, not a fact. */
const VALENCES: Readonly<Record<string, readonly number[]>> = {
  B: [3],
  C: [4],
  N: [3, 5],
  O: [2],
  P: [3, 5],
  S: [2, 4, 6],
  F: [1],
  Cl: [1],
  Br: [1],
  I: [1],
};

/** Elements that never hold more bonds than their largest normal valence. */
const STRICT = ['B', 'C', 'N', 'O', 'F'];

/** Hydrogens that an atom written without brackets carries, from the bonds it has. */
function impliedHydrogens(atom: Atom, bonded: number): number {
  const valences = VALENCES[atom.symbol]!;
  // An aromatic atom gives one valence to the ring; only its lowest valence takes hydrogens.
  if (atom.aromatic) return Math.max(0, valences[0]! - bonded - 1);
  // The specification gives this nitrogen a hydrogen; nobody who writes it means one.
  if (atom.symbol === 'N' && bonded === 4)
    throw new SmilesRefusal('N with 4 bonds carries a charge: [N+].', atom.at);
  const valence = valences.find((v) => v >= bonded);
  if (valence !== undefined) return valence - bonded;
  if (STRICT.includes(atom.symbol))
    throw new SmilesRefusal(`${atom.symbol} with ${bonded} bonds: more than it can have.`, atom.at);
  return 0;
}

/** Hydrogens written in brackets stand as they are, unless the atom cannot hold them. */
function writtenHydrogens(atom: Atom, bonded: number): number {
  const most = VALENCES[atom.symbol]?.at(-1) ?? Infinity;
  const bonds = bonded + atom.hydrogens;
  if (atom.charge === 0 && STRICT.includes(atom.symbol) && bonds > most)
    throw new SmilesRefusal(`${atom.symbol} with ${bonds} bonds: more than it can have.`, atom.at);
  return atom.hydrogens;
}

/** Valence in an aromatic ring of an atom of this charge: as the neutral neighbour in the periodic table. */
function ringValence(atom: Atom): number {
  const carbonLike = ['C', 'Si'].includes(atom.symbol);
  const neutral = carbonLike
    ? 4
    : ['N', 'P', 'As'].includes(atom.symbol)
      ? 3
      : atom.symbol === 'B'
        ? 3
        : 2;
  if (carbonLike) return neutral - Math.abs(atom.charge);
  return atom.symbol === 'B' ? neutral - atom.charge : neutral + atom.charge;
}

/** Whether an aromatic atom still lacks one bond, which an alternating double bond must give it. */
function lacksOne(atom: Atom, bonded: number): boolean {
  const lacking = ringValence(atom) - bonded - atom.hydrogens;
  const hypervalent = ['N', 'P', 'As', 'S', 'Se', 'Te'].includes(atom.symbol);
  return atom.organic && atom.symbol === 'C'
    ? bonded < 4
    : lacking === 1 || (hypervalent && (lacking === -1 || lacking === -3));
}

/**
 * Refuses a lower-case (aromatic) ring that no alternation of single and double bonds can make:
 * the usual slip is `n` for `[nH]`, which would silently lose a hydrogen.
 */
function checkAromatic(graph: SmilesGraph, bonded: readonly number[]): void {
  if (!graph.atoms.some((atom) => atom.aromatic)) return;
  const inRing = ringBonds(graph);
  const bonds = bondsByAtom(graph);
  graph.atoms.forEach((atom, i) => {
    if (atom.aromatic && !bonds[i]!.some((b) => inRing[b]))
      throw new SmilesRefusal('A lower-case atom outside a ring: write it upper case.', atom.at);
  });
  const needy = graph.atoms.map((atom, i) => atom.aromatic && lacksOne(atom, bonded[i]!));
  const neighbours = graph.atoms.map((_, i) =>
    needy[i]
      ? bonds[i]!.filter((b) => graph.bonds[b]!.aromatic && inRing[b])
          .map((b) => graph.bonds[b]!.from + graph.bonds[b]!.to - i)
          .filter((j) => needy[j])
      : [],
  );
  const alone = unmatched(neighbours).find((i) => needy[i]);
  if (alone === undefined) return;
  const nitrogen = graph.atoms.some((atom) => atom.aromatic && atom.organic && atom.symbol === 'N');
  throw new SmilesRefusal(
    'This lower-case ring has no alternating double bonds' +
      (nitrogen ? ': does an n carry a hydrogen, [nH]?' : '.'),
    graph.atoms[alone]!.at,
  );
}

/** Hydrogens of each atom, written or implied. Throws a `SmilesRefusal` where the bonds cannot be. */
export function hydrogensOf(graph: SmilesGraph): readonly number[] {
  const bonded = graph.atoms.map(() => 0);
  for (const bond of graph.bonds) {
    bonded[bond.from]! += bond.order;
    bonded[bond.to]! += bond.order;
  }
  const hydrogens = graph.atoms.map((atom, i) =>
    atom.organic ? impliedHydrogens(atom, bonded[i]!) : writtenHydrogens(atom, bonded[i]!),
  );
  checkAromatic(graph, bonded);
  return hydrogens;
}
