import carbonTable from '../../facts/effective_carbons.json' with { type: 'json' };
import { numberIn, rowsOf } from '../../facts/table.ts';
import type { Substance } from '../../chemistry/substance.ts';
import { SmilesRefusal, bondsByAtom, otherEnd } from '../../chemistry/smiles-graph.ts';
import type { SmilesGraph } from '../../chemistry/smiles-graph.ts';
import { hydrogensOf } from '../../chemistry/smiles-hydrogens.ts';
import { readGraph } from '../../chemistry/smiles-read.ts';

/** What an atom counts as in data/effective_carbons.csv. */
type Part =
  | 'aliphatic carbon'
  | 'aromatic carbon'
  | 'olefinic carbon'
  | 'acetylenic carbon'
  | 'carbonyl carbon'
  | 'carboxyl carbon'
  | 'nitrile carbon'
  | 'ether oxygen'
  | 'ester oxygen'
  | 'primary alcohol oxygen'
  | 'secondary alcohol oxygen'
  | 'tertiary alcohol oxygen'
  | 'phenol oxygen'
  | 'primary amine nitrogen'
  | 'secondary amine nitrogen'
  | 'tertiary amine nitrogen';

const COUNTS = new Map(
  rowsOf(carbonTable).map((row) => [row['part'] as Part, numberIn(row['carbons']) ?? 0] as const),
);

/**
 * Between a measured response and one from effective carbons: see docs/methods/chromatography.md.
 */
export const CARBONS_U = 0.08;

interface Looking {
  readonly graph: SmilesGraph;
  readonly bonds: readonly (readonly number[])[];
  readonly hydrogens: readonly number[];
}

const orderTo = ({ graph, bonds }: Looking, atom: number, symbol: string): number =>
  Math.max(
    0,
    ...bonds[atom]!.map((b) => graph.bonds[b]!)
      .filter((bond) => graph.atoms[otherEnd(bond, atom)]!.symbol === symbol)
      .map(({ order }) => order),
  );

function neighbours({ graph, bonds }: Looking, atom: number): number[] {
  return bonds[atom]!.map((b) => otherEnd(graph.bonds[b]!, atom));
}

const isCarbonyl = (looking: Looking, atom: number): boolean =>
  looking.graph.atoms[atom]!.symbol === 'C' && orderTo(looking, atom, 'O') === 2;

function carbonPart(looking: Looking, atom: number): Part {
  const { graph } = looking;
  if (graph.atoms[atom]!.aromatic) return 'aromatic carbon';
  if (isCarbonyl(looking, atom)) {
    const oxygens = neighbours(looking, atom).filter((i) => graph.atoms[i]!.symbol === 'O');
    return oxygens.length > 1 ? 'carboxyl carbon' : 'carbonyl carbon';
  }
  if (orderTo(looking, atom, 'N') === 3) return 'nitrile carbon';
  const toCarbon = orderTo(looking, atom, 'C');
  if (toCarbon === 3) return 'acetylenic carbon';
  return toCarbon === 2 ? 'olefinic carbon' : 'aliphatic carbon';
}

const BY_CARBONS = ['primary', 'primary', 'secondary', 'tertiary'] as const;

/**
 * 'none' for an oxygen that another part already counts; undefined where the table says nothing.
 */
function oxygenPart(looking: Looking, atom: number): Part | 'none' | undefined {
  const { graph, hydrogens } = looking;
  const near = neighbours(looking, atom);
  if (graph.atoms[atom]!.aromatic || near.some((i) => graph.atoms[i]!.symbol !== 'C'))
    return undefined;
  if (near.length === 1 && hydrogens[atom] === 0) return 'none';
  const carbonyls = near.filter((i) => isCarbonyl(looking, i)).length;
  if (hydrogens[atom]! > 0) {
    const carbon = near[0];
    if (carbon === undefined) return undefined;
    if (carbonyls > 0) return 'none';
    if (graph.atoms[carbon]!.aromatic) return 'phenol oxygen';
    const carbons = neighbours(looking, carbon).filter((i) => graph.atoms[i]!.symbol === 'C');
    return `${BY_CARBONS[carbons.length] ?? 'tertiary'} alcohol oxygen`;
  }
  return carbonyls > 0 ? 'ester oxygen' : 'ether oxygen';
}

function nitrogenPart(looking: Looking, atom: number): Part | 'none' | undefined {
  const { graph, hydrogens } = looking;
  if (graph.atoms[atom]!.aromatic || graph.atoms[atom]!.charge !== 0) return undefined;
  if (orderTo(looking, atom, 'C') === 3) return 'none';
  const near = neighbours(looking, atom);
  if (near.some((i) => graph.atoms[i]!.symbol !== 'C' || isCarbonyl(looking, i))) return undefined;
  if (orderTo(looking, atom, 'C') !== 1) return undefined;
  return `${BY_CARBONS[3 - hydrogens[atom]!] ?? 'tertiary'} amine nitrogen`;
}

/**
 * The effective carbon number of a structure in a flame ionisation detector: the sum over its
 * atoms of data/effective_carbons.csv (Scanlon and Willis, J. Chromatogr. Sci. 1985, 23, 333).
 * Undefined where the structure holds something that the table does not know: amides, halogens,
 * sulfur, charges, heteroaromatic rings.
 */
export function effectiveCarbons(smiles: string): number | undefined {
  let looking: Looking;
  try {
    const graph = readGraph(smiles.trim());
    looking = { graph, bonds: bondsByAtom(graph), hydrogens: hydrogensOf(graph) };
  } catch (refusal) {
    if (refusal instanceof SmilesRefusal) return undefined;
    throw refusal;
  }
  let total = 0;
  for (const [i, atom] of looking.graph.atoms.entries()) {
    if (atom.symbol === 'H') continue;
    const part =
      atom.symbol === 'C'
        ? carbonPart(looking, i)
        : atom.symbol === 'O'
          ? oxygenPart(looking, i)
          : atom.symbol === 'N'
            ? nitrogenPart(looking, i)
            : undefined;
    if (part === undefined || atom.charge !== 0) return undefined;
    if (part !== 'none') total += COUNTS.get(part) ?? 0;
  }
  return total;
}

export interface Response {
  /** Area for a gram, in effective carbons a gram-mole: only ratios of two mean something. */
  readonly factor: number;
  readonly u: number;
  readonly from: 'given' | 'effectiveCarbons';
}

/**
 * The response for a mass that effective carbons give: ECN/M. Undefined at 0 (formic acid, CS₂).
 */
export function responseOf(substance: Substance): Response | undefined {
  if (substance.smiles === undefined || substance.molarMass_g_mol === undefined) return undefined;
  const carbons = effectiveCarbons(substance.smiles);
  if (carbons === undefined || !(carbons > 0)) return undefined;
  const factor = carbons / substance.molarMass_g_mol;
  return { factor, u: CARBONS_U * factor, from: 'effectiveCarbons' };
}
