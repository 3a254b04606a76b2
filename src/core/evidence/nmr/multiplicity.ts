import type { HydrogenEnvironment } from '../../chemistry/environments.ts';

/** A pattern as written: for each part the couplings that it shows ("dt" is 1 and 2). */
export interface Pattern {
  readonly couplings: readonly number[];
  readonly multiplet: boolean;
  readonly broad: boolean;
}

const PARTS: readonly (readonly [word: string, couplings: number])[] = [
  ['quintet', 4],
  ['quint', 4],
  ['pentet', 4],
  ['pent', 4],
  ['sextet', 5],
  ['sext', 5],
  ['septet', 6],
  ['heptet', 6],
  ['sept', 6],
  ['hept', 6],
  ['octet', 7],
  ['oct', 7],
  ['nonet', 8],
  ['non', 8],
  ['singlet', 0],
  ['doublet', 1],
  ['triplet', 2],
  ['quartet', 3],
  ['s', 0],
  ['d', 1],
  ['t', 2],
  ['q', 3],
  ['p', 4],
];

/** Nobody reads more couplings than this out of a signal. */
const MOST_PARTS = 6;

/** The pattern that a word stands for, or undefined where it is none. */
export function readMultiplicity(text: string): Pattern | undefined {
  let rest = text.toLowerCase().replace(/[\s.,()-]|of/g, '');
  const broad = /^(?:broad|br|b)/.test(rest);
  rest = rest.replace(/^(?:broad|br|b)/, '').replace(/^app(?:arent)?/, '');
  if (rest === '' && broad) return { couplings: [], multiplet: true, broad };
  if (/^(?:m|multiplet|comp|abq?)$/.test(rest)) return { couplings: [], multiplet: true, broad };
  const couplings: number[] = [];
  while (rest !== '') {
    const part = PARTS.find(([word]) => rest.startsWith(word));
    if (part === undefined) return undefined;
    if (part[1] > 0) couplings.push(part[1]);
    rest = rest.slice(part[0].length);
  }
  const sound = text.trim() !== '' && couplings.length <= MOST_PARTS;
  return sound ? { couplings, multiplet: false, broad } : undefined;
}

const NAMES = ['s', 'd', 't', 'q', 'quint', 'sext', 'sept', 'oct', 'non'];

/** What surrounds an environment, beyond its own couplings. */
export interface Surroundings {
  /** On sp2 carbon outside an aromatic ring. */
  readonly vinylic: boolean;
  /** Next to a double bond or an aromatic ring: couplings over four bonds show. */
  readonly allylic: boolean;
  /** Next to OH or NH that may couple where exchange is slow. */
  readonly besideExchangeable: boolean;
}

/** Neighbours to split by: one number for those that share a coupling constant. */
function unitsOf(env: HydrogenEnvironment, all: readonly HydrogenEnvironment[]): number[] {
  const units = env.couplings.flatMap((coupling) => {
    const other = all[coupling.with]!;
    const apart = other.mayDiffer && other.perAtom === 2;
    return apart ? Array.from({ length: coupling.hydrogens }, () => 1) : [coupling.hydrogens];
  });
  return env.fluorines > 0 ? [...units, env.fluorines] : units;
}

/**
 * The first-order pattern, n + 1 lines for n neighbours with one coupling constant; where they
 * have several (on double bonds and aromatic rings) the product of patterns.
 */
export function expectedPattern(
  env: HydrogenEnvironment,
  all: readonly HydrogenEnvironment[],
  around: Surroundings,
): string {
  if (env.exchangeable) return 'br s';
  const groups = env.couplings.map((coupling) => coupling.hydrogens);
  if (env.fluorines > 0) groups.push(env.fluorines);
  const n = groups.reduce((sum, count) => sum + count, 0);
  if (env.secondOrder) return n === 0 ? 's' : `${NAMES[n] ?? 'm'}, not first order`;
  const several = groups.length > 1 && (around.vinylic || env.aromatic || env.fluorines > 0);
  if (several) return groups.map((count) => NAMES[count] ?? 'm').join('');
  const soft = env.mayDiffer || unitsOf(env, all).length > groups.length;
  return soft ? `${NAMES[n] ?? 'm'} or m` : (NAMES[n] ?? 'm');
}

const sumOf = (list: readonly number[]): number => list.reduce((sum, one) => sum + one, 0);

/** Whether the units, the largest first, can be shared out so that the sums are the parts. */
function shared(parts: readonly number[], units: readonly number[]): boolean {
  const [unit, ...others] = units;
  if (unit === undefined) return parts.every((part) => part === 0);
  return parts.some(
    (part, i) =>
      part >= unit && parts.indexOf(part) === i && shared(parts.with(i, part - unit), others),
  );
}

function canMake(parts: readonly number[], units: readonly number[]): boolean {
  return (
    sumOf(parts) === sumOf(units) &&
    shared(
      parts,
      [...units].sort((a, b) => b - a),
    )
  );
}

/** The parts without up to `count` couplings, from small ones only: every way. */
function withoutSmall(parts: readonly number[], count: number): (readonly number[])[] {
  const found = new Map<string, readonly number[]>();
  const take = (left: readonly number[], still: number): void => {
    if (found.has(left.join())) return;
    found.set(left.join(), left);
    left.forEach((part, i) => {
      if (part <= still) take(left.toSpliced(i, 1), still - part);
    });
  };
  take(
    [...parts].sort((a, b) => a - b),
    count,
  );
  return [...found.values()];
}

/**
 * Whether a pattern can be that of an environment: its couplings, or those with what first-order
 * rules leave out (small couplings over four bonds, geminal ones, slow exchange).
 */
export function patternFits(
  seen: Pattern,
  env: HydrogenEnvironment,
  all: readonly HydrogenEnvironment[],
  around: Surroundings,
): boolean {
  if (env.exchangeable) return true;
  const units = unitsOf(env, all);
  const n = sumOf(units);
  if (seen.multiplet) return n > 0 || env.mayDiffer || env.aromatic || around.allylic;
  if (env.secondOrder && seen.couplings.length > 0) return n > 0;
  const extra =
    (env.aromatic || around.vinylic ? 2 : 0) +
    (around.allylic ? 2 : 0) +
    (env.mayDiffer && env.perAtom === 2 ? 1 : 0) +
    (around.besideExchangeable ? 1 : 0);
  // Geminal couplings on double bonds are often too small to be seen.
  const hidden = around.vinylic
    ? env.couplings.filter((c) => all[c.with]!.atoms[0] === env.atoms[0]).map((c) => c.hydrogens)
    : [];
  const wanted = [units, ...hidden.map((h) => units.toSpliced(units.indexOf(h), 1))];
  const small = seen.broad ? 3 : extra;
  return wanted.some(
    (list) =>
      withoutSmall(seen.couplings, small).some((parts) => canMake(parts, list)) ||
      (seen.broad && seen.couplings.length === 0 && n <= 1),
  );
}
