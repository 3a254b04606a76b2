import { isCarbon, isCarbonyl } from '../../chemistry/skeleton.ts';
import type { Link, Skeleton } from '../../chemistry/skeleton.ts';
import type { HydrogenEnvironment } from '../../chemistry/environments.ts';
import windowsTable from '../../facts/nmr_windows.json' with { type: 'json' };
import { rowsOf } from '../../facts/table.ts';
import type { Surroundings } from './multiplicity.ts';

export interface ShiftWindow {
  readonly low_ppm: number;
  readonly high_ppm: number;
  /** "next to C=O". */
  readonly because: string;
  readonly source: string;
}

interface Row {
  readonly label: string;
  readonly low: number;
  readonly high: number;
  readonly source: string;
}

let cached: ReadonlyMap<string, Row> | undefined;

function rowOf(kind: string): Row {
  cached ??= new Map(
    rowsOf(windowsTable).map((row) => [
      row['kind']!,
      {
        label: row['label']!,
        low: Number(row['low_ppm']),
        high: Number(row['high_ppm']),
        source: row['source']!,
      },
    ]),
  );
  return cached.get(kind) ?? cached.get('other')!;
}

const symbolAt = (s: Skeleton, atom: number): string => s.atoms[atom]!.symbol;
const others = (s: Skeleton, atom: number, but: number): readonly Link[] =>
  s.links[atom]!.filter((link) => link.to !== but);
const isNitro = (s: Skeleton, atom: number): boolean =>
  symbolAt(s, atom) === 'N' &&
  s.links[atom]!.filter((link) => symbolAt(s, link.to) === 'O').length === 2;

function besideCarbon(s: Skeleton, to: number): string | undefined {
  if (s.aromatic[to]) return 'benzylic';
  if (isCarbonyl(s, to)) return 'alphaCarbonyl';
  const triple = s.links[to]!.find((link) => link.order === 3);
  if (triple !== undefined) return isCarbon(s, triple.to) ? 'propargylic' : 'alphaNitrile';
  return s.links[to]!.some((link) => link.order === 2) ? 'allylic' : undefined;
}

function besideNitrogen(s: Skeleton, to: number, from: number): string {
  if (isNitro(s, to)) return 'alphaNitro';
  const drawing =
    s.aromatic[to] === true ||
    s.atoms[to]!.charge > 0 ||
    others(s, to, from).some((link) => isCarbonyl(s, link.to) || symbolAt(s, link.to) === 'S');
  return drawing ? 'alphaAmide' : 'alphaAmine';
}

function besideOxygen(s: Skeleton, to: number, from: number): string {
  const [next] = others(s, to, from);
  if (next === undefined) return 'alphaEther';
  if (isCarbonyl(s, next.to) || ['S', 'P', 'N'].includes(symbolAt(s, next.to))) return 'alphaEster';
  return s.aromatic[next.to] ? 'alphaAryloxy' : 'alphaEther';
}

const HALOGENS: Readonly<Record<string, string>> = {
  F: 'alphaFluorine',
  Cl: 'alphaChlorine',
  Br: 'alphaBromine',
  I: 'alphaIodine',
  S: 'alphaSulfur',
  Si: 'alphaSilicon',
};

/** The kind of group beside a saturated carbon that moves its hydrogens; none for plain carbon. */
function groupBeside(s: Skeleton, to: number, from: number): string | undefined {
  const symbol = symbolAt(s, to);
  if (symbol === 'C') return besideCarbon(s, to);
  if (symbol === 'N') return besideNitrogen(s, to, from);
  if (symbol === 'O') return besideOxygen(s, to, from);
  return HALOGENS[symbol] ?? 'other';
}

/** Groups on the next carbons that move a signal by some tenths of a ppm. */
function secondNeighbours(s: Skeleton, atom: number): number {
  return s.links[atom]!.filter((link) => isCarbon(s, link.to))
    .flatMap((link) => others(s, link.to, atom))
    .filter((link) => !isCarbon(s, link.to) || s.aromatic[link.to] || isCarbonyl(s, link.to))
    .length;
}

/**
 * Groups on one carbon do not add up without end: no CH₃, CH₂ or CH of the published tables lies
 * further down than a methyl sulfonate or nitromethane, an acyloxymethyl ether, tribromomethane or an
 * acylal of benzaldehyde (common practice).
 */
const MOST_PPM: readonly number[] = [12, 7.9, 6.1, 4.7];

/** Where a chain alone puts a hydrogen: what further groups add is counted from here. */
const CHAIN_PPM = 1.3;

function saturatedWindow(s: Skeleton, atom: number): ShiftWindow {
  const kinds = s.links[atom]!.flatMap((link) => groupBeside(s, link.to, atom) ?? []);
  const inThree = s.rings.some((ring) => ring.length === 3 && ring.includes(atom));
  const base = rowOf(inThree ? 'cyclopropyl' : 'alkyl');
  const rows = kinds.map(rowOf);
  const further = Math.min(1.2, 0.4 * secondNeighbours(s, atom));
  const silicon = kinds.includes('alphaSilicon');
  const low = silicon ? rowOf('alphaSilicon').low : Math.max(base.low, ...rows.map((r) => r.low));
  const high =
    rows.length === 0
      ? base.high
      : rows.reduce((sum, row) => sum + row.high - CHAIN_PPM, CHAIN_PPM);
  return {
    // A ring of three moves its hydrogens to low shift whatever else it bears.
    low_ppm: inThree ? Math.min(low, base.low + rows.length) : low,
    high_ppm: Math.min(MOST_PPM[Math.min(3, s.hydrogens[atom]!)]!, high + further),
    because: rows.length === 0 ? base.label : rows.map((row) => row.label).join(', '),
    source: (rows[0] ?? base).source,
  };
}

function unsaturatedKind(s: Skeleton, atom: number): string {
  const links = s.links[atom]!;
  if (s.aromatic[atom]) {
    const ring = links.some((l) => l.aromatic && !isCarbon(s, l.to));
    const near = links.some(
      (l) => l.aromatic && s.links[l.to]!.some((m) => m.aromatic && !isCarbon(s, m.to)),
    );
    return ring || near ? 'heteroaryl' : 'aryl';
  }
  if (isCarbonyl(s, atom))
    return links.some((l) => l.order === 1 && !isCarbon(s, l.to)) ? 'formyl' : 'aldehyde';
  if (links.some((l) => l.order === 3)) return 'alkyne';
  const partner = links.find((l) => l.order === 2);
  if (partner === undefined) return 'other';
  const around = [...others(s, atom, partner.to), ...others(s, partner.to, atom)];
  if (around.some((l) => l.order === 1 && !isCarbon(s, l.to) && !isNitro(s, l.to)))
    return 'vinylHetero';
  return around.some((l) => besideCarbon(s, l.to) !== undefined || isNitro(s, l.to))
    ? 'vinylConjugated'
    : 'vinyl';
}

function exchangeableKind(s: Skeleton, atom: number): string {
  const symbol = symbolAt(s, atom);
  const [first] = s.links[atom]!;
  if (symbol === 'S') return 'thiol';
  if (first === undefined || s.aromatic[atom] || s.atoms[atom]!.charge !== 0)
    return 'otherExchangeable';
  const onCarbonyl = s.links[atom]!.some((link) => isCarbonyl(s, link.to));
  if (symbol === 'O') {
    if (onCarbonyl) return 'carboxylicAcid';
    if (s.aromatic[first.to]) return 'phenol';
    return s.links[first.to]!.every((link) => link.order === 1) ? 'alcohol' : 'otherExchangeable';
  }
  if (onCarbonyl || s.links[atom]!.some((link) => symbolAt(s, link.to) === 'S')) return 'amide';
  return s.links[atom]!.some((link) => link.order > 1) ? 'otherExchangeable' : 'amine';
}

/**
 * Where the signal of an environment may lie. Rough on purpose: the windows of the published
 * tables, widened; several groups on one carbon add up (the idea of Shoolery's rule).
 */
export function shiftWindow(s: Skeleton, env: HydrogenEnvironment): ShiftWindow {
  const atom = env.atoms[0]!;
  const carbon = isCarbon(s, atom);
  const plain = carbon && !s.aromatic[atom] && s.links[atom]!.every((l) => l.order === 1);
  if (plain) return saturatedWindow(s, atom);
  const row = rowOf(
    carbon ? unsaturatedKind(s, atom) : env.exchangeable ? exchangeableKind(s, atom) : 'other',
  );
  return { low_ppm: row.low, high_ppm: row.high, because: row.label, source: row.source };
}

export function surroundingsOf(s: Skeleton, env: HydrogenEnvironment): Surroundings {
  const atom = env.atoms[0]!;
  const links = s.links[atom]!;
  return {
    vinylic: isCarbon(s, atom) && !s.aromatic[atom] && links.some((l) => l.order === 2),
    allylic: links.some(
      (l) => isCarbon(s, l.to) && !isCarbonyl(s, l.to) && besideCarbon(s, l.to) !== undefined,
    ),
    besideExchangeable: links.some((l) => !isCarbon(s, l.to) && s.hydrogens[l.to]! > 0),
  };
}
