import { isCarbon, isCarbonyl, skeletonOf } from '../../chemistry/skeleton.ts';
import { readSmiles } from '../../chemistry/smiles.ts';
import type { Skeleton } from '../../chemistry/skeleton.ts';
import type { Substance } from '../../chemistry/substance.ts';
import type { TitrationKind } from './schema.ts';

const symbolAt = (s: Skeleton, atom: number): string => s.atoms[atom]!.symbol;

/** An O–H, S–H or N–H that aqueous alkali takes: acids, phenols, thiols, imides, ammonium salts. */
function isAcidic(s: Skeleton, atom: number): boolean {
  if (s.hydrogens[atom] === 0 || isCarbon(s, atom)) return false;
  const near = s.links[atom]!;
  if (symbolAt(s, atom) === 'S' || s.atoms[atom]!.charge > 0) return true;
  const drawing = near.filter(
    ({ to }) => isCarbonyl(s, to) || ['S', 'P', 'B'].includes(symbolAt(s, to)),
  ).length;
  if (symbolAt(s, atom) === 'N') return drawing > 1;
  return drawing > 0 || near.some(({ to }) => s.aromatic[to] === true || isVinyl(s, to));
}

const isVinyl = (s: Skeleton, atom: number): boolean =>
  isCarbon(s, atom) && s.links[atom]!.some(({ order }) => order === 2);

/** A nitrogen, or a negative charge. */
const isBasic = (s: Skeleton, atom: number): boolean =>
  symbolAt(s, atom) === 'N' || s.atoms[atom]!.charge < 0;

/** The single-bonded oxygen, sulfur or nitrogen of an acyl group that hot alkali takes off. */
const isSaponified = (s: Skeleton, atom: number): boolean =>
  !isCarbon(s, atom) && s.links[atom]!.some(({ to, order }) => order === 1 && isCarbonyl(s, to));

const REACTS: Readonly<
  Record<TitrationKind, ((s: Skeleton, atom: number) => boolean) | undefined>
> = {
  acid: isAcidic,
  base: isBasic,
  saponification: isSaponified,
  // Oxidants are too unlike each other to be told by a group
  iodometric: undefined,
};

/** Whether a substance has a group that takes this titrant; true where its structure is not known. */
export function canReact({ smiles, composition }: Substance, kind: TitrationKind): boolean {
  const reacts = REACTS[kind];
  const isOrganic = composition?.counts.has('C') === true;
  if (reacts === undefined || smiles === undefined || !isOrganic) return true;
  if (!readSmiles(smiles).ok) return true;
  const skeleton = skeletonOf(smiles);
  return skeleton.atoms.some((_, atom) => reacts(skeleton, atom));
}
