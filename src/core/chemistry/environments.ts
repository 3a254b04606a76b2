import { isCarbon, isTetrahedral, skeletonOf } from './skeleton.ts';
import type { Skeleton } from './skeleton.ts';
import { SmilesRefusal } from './smiles-graph.ts';
import { sidedClasses, stereocentres, symmetryClasses } from './symmetry.ts';

export interface Coupling {
  /** Number of the environment that couples. */
  readonly with: number;
  /** How many of its hydrogens each hydrogen here sees over two or three bonds. */
  readonly hydrogens: number;
}

/** Hydrogens that a spectrum shows as one signal, as far as the structure says. */
export interface HydrogenEnvironment {
  /** Atoms that carry them, by their place along the SMILES. */
  readonly atoms: readonly number[];
  readonly perAtom: number;
  readonly hydrogens: number;
  /** On O, N or S: may be broad, moved or missing, and usually does not couple. */
  readonly exchangeable: boolean;
  /** On an atom of an aromatic ring. */
  readonly aromatic: boolean;
  readonly couplings: readonly Coupling[];
  /** Fluorine (spin 1/2) on the same or the next carbon. */
  readonly fluorines: number;
  /** Diastereotopic hydrogens or groups: one signal or two, and no plain n + 1 pattern. */
  readonly mayDiffer: boolean;
  /** Pairs of equal hydrogens on one ring (AA'BB'): looks like doublets, and is not. */
  readonly secondOrder: boolean;
  /** "CH3", "2 × CH, aromatic", "OH". */
  readonly label: string;
}

export interface Environments {
  readonly skeleton: Skeleton;
  readonly list: readonly HydrogenEnvironment[];
}

export type EnvironmentsReading =
  ({ readonly ok: true } & Environments) | { readonly ok: false; readonly message: string };

/** Beyond this the answer takes too long for a page, and no first-order spectrum is readable. */
const MOST_ATOMS = 200;

interface Group {
  readonly atoms: readonly number[];
  readonly perAtom: number;
}

function groupsOf(s: Skeleton): Group[] {
  const { classes, splitCarbons } = sidedClasses(s);
  const byClass = new Map<number, number[]>();
  s.atoms.forEach((_, i) => {
    if (s.hydrogens[i]! === 0) return;
    byClass.set(classes[i]!, [...(byClass.get(classes[i]!) ?? []), i]);
  });
  return [...byClass.values()].flatMap((atoms): Group[] => {
    const perAtom = s.hydrogens[atoms[0]!]!;
    if (!splitCarbons.has(atoms[0]!)) return [{ atoms, perAtom }];
    return [
      { atoms, perAtom: 1 },
      { atoms, perAtom: 1 },
    ];
  });
}

const isExchangeable = (s: Skeleton, atom: number): boolean =>
  ['O', 'N', 'S'].includes(s.atoms[atom]!.symbol);

function couplingsOf(s: Skeleton, groups: readonly Group[], own: number): Coupling[] {
  const atom = groups[own]!.atoms[0]!;
  if (!isCarbon(s, atom)) return [];
  const near = [atom, ...s.links[atom]!.map((link) => link.to).filter((to) => isCarbon(s, to))];
  return groups.flatMap((group, i): Coupling[] => {
    if (i === own) return [];
    const count = near.filter((at) => group.atoms.includes(at)).length * group.perAtom;
    return count === 0 ? [] : [{ with: i, hydrogens: count }];
  });
}

function fluorinesNear(s: Skeleton, atom: number): number {
  const near = [atom, ...s.links[atom]!.map((link) => link.to)];
  return near
    .flatMap((at) => (isCarbon(s, at) ? s.links[at]! : []))
    .filter((link) => s.atoms[link.to]!.symbol === 'F').length;
}

/** Whether a ring with this CH2 has a carbon with two different groups, so that its faces differ. */
function hasFaces(s: Skeleton, atom: number, classes: readonly number[]): boolean {
  return s.rings
    .filter((ring) => ring.includes(atom))
    .some((ring) =>
      ring.some((at) => {
        if (at === atom || !isCarbon(s, at) || !isTetrahedral(s, at)) return false;
        const out = s.links[at]!.filter((link) => !ring.includes(link.to));
        if (out.length === 1) return true;
        return out.length === 2 && classes[out[0]!.to] !== classes[out[1]!.to];
      }),
    );
}

/**
 * The replacement test: if another label on one of the hydrogens makes a second stereocentre (or
 * meets one that is there), the two hydrogens of a CH2 are diastereotopic; so they are where the
 * faces of their ring differ. Two equal groups on one
 * atom are so where the structure has a stereocentre.
 */
function mayDiffer(s: Skeleton, group: Group, centres: readonly number[]): boolean {
  const [first] = group.atoms;
  if (first === undefined || !isCarbon(s, first) || !isTetrahedral(s, first)) return false;
  if (group.perAtom === 2) {
    const marked = symmetryClasses(s, new Map([[first, 'replaced']]));
    if (stereocentres(s, marked).some((atom) => atom !== first)) return true;
    if (hasFaces(s, first, marked)) return true;
  }
  if (centres.length === 0 || group.atoms.length === 1) return false;
  const parents = group.atoms.map((atom) => s.links[atom]!.map((link) => link.to));
  return parents[0]!.some((parent) => parents.slice(1).some((more) => more.includes(parent)));
}

function isSecondOrder(
  s: Skeleton,
  groups: readonly Group[],
  couplings: readonly Coupling[],
  own: number,
): boolean {
  const { atoms } = groups[own]!;
  if (atoms.length < 2 || !s.aromatic[atoms[0]!]) return false;
  return couplings.some((coupling) => groups[coupling.with]!.atoms.length === atoms.length);
}

function labelOf(s: Skeleton, group: Group): string {
  const [first] = group.atoms;
  const symbol = s.atoms[first!]!.symbol;
  const count = group.perAtom === 1 ? '' : String(group.perAtom);
  const many = group.atoms.length === 1 ? '' : `${group.atoms.length} × `;
  return `${many}${symbol}H${count}${s.aromatic[first!] && symbol === 'C' ? ', aromatic' : ''}`;
}

function environmentsOf(s: Skeleton): Environments {
  const groups = groupsOf(s);
  const centres = stereocentres(s, symmetryClasses(s));
  const list = groups.map((group, i): HydrogenEnvironment => {
    const first = group.atoms[0]!;
    const couplings = couplingsOf(s, groups, i);
    return {
      atoms: group.atoms,
      perAtom: group.perAtom,
      hydrogens: group.atoms.length * group.perAtom,
      exchangeable: isExchangeable(s, first),
      aromatic: s.aromatic[first]!,
      couplings,
      fluorines: fluorinesNear(s, first),
      mayDiffer: mayDiffer(s, group, centres),
      secondOrder: isSecondOrder(s, groups, couplings, i),
      label: labelOf(s, group),
    };
  });
  return { skeleton: s, list };
}

/**
 * The hydrogen environments of a structure. Stereochemistry is not read from the SMILES: E and Z,
 * and diastereomers, give the same list. Slow ring inversion and hindered rotation (other than of
 * amides) are left out. Couplings are over two and three bonds between carbons only.
 */
export function hydrogenEnvironments(smiles: string): EnvironmentsReading {
  try {
    const skeleton = skeletonOf(smiles);
    if (skeleton.atoms.length > MOST_ATOMS)
      return { ok: false, message: `The structure has more than ${MOST_ATOMS} atoms.` };
    return { ok: true, ...environmentsOf(skeleton) };
  } catch (refusal) {
    if (!(refusal instanceof SmilesRefusal)) throw refusal;
    return { ok: false, message: refusal.message };
  }
}
