import { isCarbon, isCarbonyl, isTetrahedral } from './skeleton.ts';
import type { Skeleton } from './skeleton.ts';

/** Something that sets an atom apart from its like: a replaced hydrogen, a side of a double bond. */
export type Marks = ReadonlyMap<number, string>;

const NO_MARKS: Marks = new Map();

/** Numbers keys by their order as text, so that the numbers do not depend on how atoms were listed. */
function ranked(keys: readonly string[]): number[] {
  const order = new Map([...new Set(keys)].sort().map((key, i) => [key, i] as const));
  return keys.map((key) => order.get(key)!);
}

/**
 * Classes of atoms that symmetry makes alike: colours refined by the colours of the neighbours
 * until nothing changes (Morgan, J. Chem. Doc. 1965, 5, 107; Weininger et al., J. Chem. Inf.
 * Comput. Sci. 1989, 29, 97). A few highly regular graphs deceive the refinement; no substance of a
 * teaching laboratory is known to.
 */
export function symmetryClasses(s: Skeleton, marks: Marks = NO_MARKS): number[] {
  const own = s.atoms.map((atom, i) =>
    [
      atom.symbol,
      atom.charge,
      atom.isotope ?? 0,
      s.hydrogens[i],
      s.aromatic[i] ? 'a' : '',
      s.links[i]!.filter((link) => link.inRing).length,
      marks.get(i) ?? '',
    ].join('|'),
  );
  let classes = ranked(own);
  let count = new Set(classes).size;
  for (;;) {
    const next = ranked(
      classes.map((own_, i) => {
        const around = s.links[i]!.map(
          (link) => `${link.aromatic ? 'a' : link.order}:${classes[link.to]}`,
        );
        return `${String(own_).padStart(5, '0')}(${around.sort().join(',')})`;
      }),
    );
    const grown = new Set(next).size;
    classes = next;
    if (grown === count) return classes;
    count = grown;
  }
}

/** Carbons with four different neighbours. */
export function stereocentres(s: Skeleton, classes: readonly number[]): number[] {
  return s.atoms.flatMap((_, i) => {
    if (!isCarbon(s, i) || !isTetrahedral(s, i) || s.hydrogens[i]! > 1) return [];
    const around = s.links[i]!.map((link) => classes[link.to]!);
    return new Set(around).size === around.length ? [i] : [];
  });
}

/** Whether the far end of a double bond tells its two sides apart. */
function hasSides(s: Skeleton, classes: readonly number[], end: number, other: number): boolean {
  const around = s.links[end]!.filter((link) => link.to !== other).map((l) => classes[l.to]!);
  if (around.length === 2) return around[0] !== around[1];
  return around.length === 1 && (s.hydrogens[end] === 1 || s.atoms[end]!.symbol === 'N');
}

/** Double bonds C=C and C=N outside aromatic rings, each from both ends. */
function doubleBondEnds(s: Skeleton): { end: number; other: number }[] {
  return s.links.flatMap((links, end) =>
    links
      .filter(
        (l) => l.order === 2 && isCarbon(s, end) && ['C', 'N'].includes(s.atoms[l.to]!.symbol),
      )
      .map((l) => ({ end, other: l.to })),
  );
}

export interface SidedClasses {
  readonly classes: readonly number[];
  /** Carbons =CH2 whose two hydrogens stand on different sides. */
  readonly splitCarbons: ReadonlySet<number>;
}

/**
 * The classes with the sides of double bonds, and of amide bonds (which turn slowly), told apart:
 * the two methyl groups of (CH3)2C=CHR or of HCON(CH3)2 are two environments. Which is which is
 * left open, so that only their numbers may be used.
 */
export function sidedClasses(s: Skeleton): SidedClasses {
  const marks = new Map<number, string>();
  let classes = symmetryClasses(s);
  for (let round = 0; round < 4; round++) {
    const before = marks.size;
    const setApart = (atom: number, away: number): void => {
      const pair = s.links[atom]!.filter((link) => link.to !== away).map((link) => link.to);
      const [first, second] = pair;
      if (pair.length !== 2 || first === undefined || second === undefined) return;
      if (classes[first] !== classes[second] || marks.has(first)) return;
      marks.set(first, 'side 1');
      marks.set(second, 'side 2');
    };
    for (const { end, other } of doubleBondEnds(s))
      if (hasSides(s, classes, other, end)) setApart(end, other);
    s.atoms.forEach((atom, i) => {
      if (atom.symbol !== 'N' || s.aromatic[i] || s.links[i]!.length !== 3) return;
      const carbonyls = s.links[i]!.filter((link) => isCarbonyl(s, link.to));
      if (carbonyls.length === 1) setApart(i, carbonyls[0]!.to);
    });
    if (marks.size === before) break;
    classes = symmetryClasses(s, marks);
  }
  const splitCarbons = new Set(
    doubleBondEnds(s)
      .filter(({ end, other }) => s.hydrogens[end] === 2 && hasSides(s, classes, other, end))
      .map(({ end }) => end),
  );
  return { classes, splitCarbons };
}
