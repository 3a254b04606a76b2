import type { Composition } from '../../chemistry/composition.ts';
import isotopesTable from '../../facts/isotope_abundances.json' with { type: 'json' };
import { rowsOf } from '../../facts/table.ts';

export interface Isotope {
  readonly massNumber: number;
  readonly mass: number;
  readonly abundance: number;
}

/** Deuterium and tritium stand for themselves in a formula. */
const LABELS: Readonly<Record<string, Isotope>> = {
  D: { massNumber: 2, mass: 2.014101778, abundance: 1 },
  T: { massNumber: 3, mass: 3.016049281, abundance: 1 },
};

/** Mass of an electron in u (CODATA 2018). */
const ELECTRON_u = 0.000548579909;

let cached: ReadonlyMap<string, readonly Isotope[]> | undefined;

export function isotopesOf(symbol: string): readonly Isotope[] | undefined {
  if (cached === undefined) {
    const found = new Map<string, Isotope[]>();
    for (const row of rowsOf(isotopesTable)) {
      const list = found.get(row['symbol']!) ?? [];
      list.push({
        massNumber: Number(row['mass_number']),
        mass: Number(row['mass']),
        abundance: Number(row['abundance']),
      });
      found.set(row['symbol']!, list);
    }
    cached = found;
  }
  const label = LABELS[symbol];
  return label === undefined ? cached.get(symbol) : [label];
}

const commonest = (isotopes: readonly Isotope[]): Isotope =>
  isotopes.reduce((best, one) => (one.abundance > best.abundance ? one : best));

/** Symbols whose isotopes the table does not have. */
export function unknownIsotopes(c: Composition): string[] {
  return [...c.counts.keys()].filter((symbol) => isotopesOf(symbol) === undefined);
}

export interface IonMass {
  /** m/z of the commonest isotope of each element, the electrons counted. */
  readonly exact: number;
  /** The same in whole numbers. */
  readonly nominal: number;
}

/**
 * m/z of an ion from the commonest isotope of each element (by abundance in nature), which is what
 * organic chemists call the monoisotopic mass. Undefined where an isotope is not in the table, a
 * count is no whole number, or there is no charge.
 */
export function ionMass(c: Composition): IonMass | undefined {
  if (c.charge === 0 || unknownIsotopes(c).length > 0) return undefined;
  if ([...c.counts.values()].some((count) => count < 0 || !Number.isInteger(count)))
    return undefined;
  let exact = -c.charge * ELECTRON_u;
  let nominal = 0;
  for (const [symbol, count] of c.counts) {
    const isotope = commonest(isotopesOf(symbol)!);
    exact += count * isotope.mass;
    nominal += count * isotope.massNumber;
  }
  const z = Math.abs(c.charge);
  return { exact: exact / z, nominal: nominal / z };
}

/** A pattern: index is the mass number above the lightest, the value its share. */
type Pattern = readonly number[];

/** Beyond this the tail of a pattern is under any noise. */
const LONGEST = 60;

function convolved(a: Pattern, b: Pattern): number[] {
  const sum = Array.from({ length: Math.min(a.length + b.length - 1, LONGEST) }, () => 0);
  a.forEach((x, i) => {
    b.forEach((y, j) => {
      if (i + j < sum.length) sum[i + j]! += x * y;
    });
  });
  return sum;
}

function powerOf(base: Pattern, count: number): Pattern {
  let result: Pattern = [1];
  let square = base;
  for (let n = count; n > 0; n = Math.floor(n / 2)) {
    if (n % 2 === 1) result = convolved(result, square);
    square = convolved(square, square);
  }
  return result;
}

export interface IsotopePeak {
  /** Mass numbers above the commonest-isotope peak M; negative below it. */
  readonly above: number;
  /** In proportion to M, which is 1. */
  readonly ratio: number;
}

/**
 * The isotope pattern at unit resolution: the convolution of the isotope distributions of all
 * atoms, by squaring (Yergey, Int. J. Mass Spectrom. Ion Phys. 1983, 52, 337, gives the sum that
 * it equals). Peaks down to 0.01 % of M.
 */
export function isotopePattern(c: Composition): IsotopePeak[] {
  if (unknownIsotopes(c).length > 0) return [];
  let pattern: Pattern = [1];
  let offset = 0;
  for (const [symbol, count] of c.counts) {
    if (count <= 0 || !Number.isInteger(count)) return [];
    const isotopes = isotopesOf(symbol)!;
    const lightest = Math.min(...isotopes.map((one) => one.massNumber));
    const heaviest = Math.max(...isotopes.map((one) => one.massNumber));
    const own = Array.from({ length: heaviest - lightest + 1 }, () => 0);
    for (const one of isotopes) own[one.massNumber - lightest] = one.abundance;
    pattern = convolved(pattern, powerOf(own, count));
    offset += count * (commonest(isotopes).massNumber - lightest);
  }
  const reference = pattern[offset] ?? 0;
  if (reference === 0) return [];
  return pattern.flatMap((share, i) =>
    share / reference < 1e-4 ? [] : [{ above: i - offset, ratio: share / reference }],
  );
}
