import { SmilesRefusal, bondsByAtom, otherEnd } from '../../chemistry/smiles-graph.ts';
import type { SmilesGraph } from '../../chemistry/smiles-graph.ts';
import { hydrogensOf } from '../../chemistry/smiles-hydrogens.ts';
import { readGraph } from '../../chemistry/smiles-read.ts';
import patternTable from '../../facts/structure_patterns.json' with { type: 'json' };
import { rowsOf } from '../../facts/table.ts';
import type { StructureFacts } from '../structure.ts';
import { timesIn } from '../structure.ts';

/**
 * Groups that tests ask for and data/structure_patterns.csv does not have: they depend on what
 * hangs on the carbon beside the group.
 */
export const OWN_GROUPS = [
  'methyl-ketone',
  'methyl-carbinol',
  'ethanol-or-acetaldehyde',
  'halide-primary',
  'halide-secondary',
  'halide-tertiary',
  'halide-benzylic-or-allylic',
  'bromide-primary',
  'amino-acid-zwitterion',
] as const;

type OwnGroup = (typeof OWN_GROUPS)[number];

interface Looking {
  readonly graph: SmilesGraph;
  readonly bonds: readonly (readonly number[])[];
  readonly hydrogens: readonly number[];
}

/** Neighbours of an atom, with the order of the bond to each. */
function around({ graph, bonds }: Looking, atom: number) {
  return bonds[atom]!.map((b) => {
    const bond = graph.bonds[b]!;
    const other = otherEnd(bond, atom);
    return { other, order: bond.order, ...graph.atoms[other]! };
  });
}

/**
 * A carbon with one CH₃ and an oxygen: C(=O)CH₃ of a ketone, CH(OH)CH₃, or the two-carbon cases.
 */
function haloformGroup(looking: Looking, atom: number): OwnGroup | undefined {
  const near = around(looking, atom);
  const methyl = near.some(({ other, symbol }) => symbol === 'C' && looking.hydrogens[other] === 3);
  const oxygens = near.filter(({ symbol }) => symbol === 'O');
  const oxygen = oxygens[0];
  if (!methyl || oxygens.length !== 1 || oxygen === undefined) return undefined;
  const carbons = near.filter(({ symbol }) => symbol === 'C').length;
  if (near.length !== carbons + 1) return undefined;
  const isHydroxyl = oxygen.order === 1 && looking.hydrogens[oxygen.other] === 1;
  const own = looking.hydrogens[atom]!;
  if (oxygen.order === 2) return carbons === 2 ? 'methyl-ketone' : 'ethanol-or-acetaldehyde';
  if (!isHydroxyl) return undefined;
  if (carbons === 1 && own === 2) return 'ethanol-or-acetaldehyde';
  return carbons === 2 && own === 1 ? 'methyl-carbinol' : undefined;
}

const HALOGENS = new Set(['Cl', 'Br', 'I']);
const DEGREES = [
  'halide-primary',
  'halide-primary',
  'halide-secondary',
  'halide-tertiary',
] as const;

/**
 * Of a saturated carbon with a halogen: how many carbons it has, and whether one is unsaturated.
 */
function halideGroups(looking: Looking, atom: number): OwnGroup[] {
  const near = around(looking, atom);
  const halogen = near.find(({ symbol }) => HALOGENS.has(symbol));
  if (halogen === undefined || near.some(({ order }) => order !== 1)) return [];
  if (looking.graph.atoms[atom]!.aromatic) return [];
  const carbons = near.filter(({ symbol }) => symbol === 'C');
  const activated = carbons.some(
    ({ other, aromatic }) =>
      aromatic || around(looking, other).some(({ order, symbol }) => order === 2 && symbol === 'C'),
  );
  const degree = DEGREES[Math.min(carbons.length, 3)]!;
  return [
    degree,
    ...(activated ? (['halide-benzylic-or-allylic'] as const) : []),
    ...(degree === 'halide-primary' && halogen.symbol === 'Br'
      ? (['bromide-primary'] as const)
      : []),
  ];
}

/** +H₃N–C–COO⁻, as amino acids are often drawn. */
function isZwitterion(looking: Looking, atom: number): boolean {
  const near = around(looking, atom);
  const ammonium = near.some(
    ({ other, symbol, charge }) => symbol === 'N' && charge === 1 && looking.hydrogens[other] === 3,
  );
  return (
    ammonium &&
    near.some(
      ({ other, symbol }) =>
        symbol === 'C' &&
        around(looking, other).some((one) => one.symbol === 'O' && one.charge === -1),
    )
  );
}

function ownGroupsIn(smiles: string): ReadonlySet<string> {
  const found = new Set<string>();
  try {
    const graph = readGraph(smiles.trim());
    const looking = { graph, bonds: bondsByAtom(graph), hydrogens: hydrogensOf(graph) };
    graph.atoms.forEach((atom, i) => {
      if (atom.symbol !== 'C' || atom.aromatic) return;
      const haloform = haloformGroup(looking, i);
      if (haloform !== undefined) found.add(haloform);
      if (isZwitterion(looking, i)) found.add('amino-acid-zwitterion');
      for (const group of halideGroups(looking, i)) found.add(group);
    });
  } catch (refusal) {
    // What the toolkit could read and this reader cannot has no groups of ours.
    if (!(refusal instanceof SmilesRefusal)) throw refusal;
  }
  return found;
}

/** Whether a structure has a group, by its name in data/chemical_tests.csv. */
export function groupsIn(facts: StructureFacts): (group: string) => boolean {
  const own = ownGroupsIn(facts.smiles);
  return (group) => own.has(group) || timesIn(facts, group) > 0;
}

const NAMES = new Map(rowsOf(patternTable).map((row) => [row['id'] ?? '', row['name'] ?? '']));

/** Groups in words, for people. */
export function groupNames(groups: readonly string[]): string {
  return groups.map((group) => NAMES.get(group) ?? group.replace(/-/g, ' ')).join('; ');
}
