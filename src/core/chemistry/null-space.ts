import { ZERO, divide, gcd, lcm, multiply, rational, subtract } from './rational.ts';
import type { Rational } from './rational.ts';

/** Divides a vector of whole numbers by their common divisor. */
export function lowestTerms(vector: readonly bigint[]): bigint[] {
  const common = vector.reduce((sum, n) => gcd(sum, n), 0n);
  return common === 0n ? [...vector] : vector.map((n) => n / common);
}

/** Whole numbers in the proportions of these fractions. */
function wholeNumbers(vector: readonly Rational[]): bigint[] {
  const under = vector.reduce((common, f) => lcm(common, f.under), 1n);
  return lowestTerms(vector.map((f) => f.over * (under / f.under)));
}

/** Reduced row echelon form; returns the column of each row's leading 1. */
function reduce(rows: Rational[][], columns: number): number[] {
  const pivots: number[] = [];
  for (let column = 0; column < columns && pivots.length < rows.length; column++) {
    const top = pivots.length;
    const found = rows.findIndex((row, i) => i >= top && row[column]!.over !== 0n);
    if (found < 0) continue;
    [rows[top], rows[found]] = [rows[found]!, rows[top]!];
    const lead = rows[top][column]!;
    rows[top] = rows[top].map((f) => divide(f, lead));
    for (let i = 0; i < rows.length; i++) {
      const factor = rows[i]![column]!;
      if (i === top || factor.over === 0n) continue;
      rows[i] = rows[i]!.map((f, j) => subtract(f, multiply(factor, rows[top]![j]!)));
    }
    pivots.push(column);
  }
  return pivots;
}

/** A basis, in whole numbers, of all x with rows · x = 0, by exact Gauss–Jordan elimination. */
export function nullSpace(matrix: readonly (readonly Rational[])[], columns: number): bigint[][] {
  const rows = matrix.map((row) => [...row]);
  const pivots = reduce(rows, columns);
  const basis: bigint[][] = [];
  for (let free = 0; free < columns; free++) {
    if (pivots.includes(free)) continue;
    const vector: Rational[] = Array.from({ length: columns }, () => ZERO);
    vector[free] = rational(1n);
    pivots.forEach((column, i) => {
      vector[column] = subtract(ZERO, rows[i]![free]!);
    });
    basis.push(wholeNumbers(vector));
  }
  return basis;
}

/** More rays than this and the search is given up. */
const MOST_RAYS = 200;

/**
 * The extreme rays of {x ≥ 0, rows · x = 0}: the solutions in which no further column can be done
 * without, each in lowest whole numbers. Every non-negative solution is a sum of them. Double
 * description (Motzkin et al., 1953), row by row, keeping pairs that share enough zeros; undefined
 * where there are too many.
 */
export function extremeRays(
  matrix: readonly (readonly Rational[])[],
  columns: number,
): bigint[][] | undefined {
  let rays: bigint[][] = Array.from({ length: columns }, (_, i) =>
    Array.from({ length: columns }, (_, j) => (i === j ? 1n : 0n)),
  );
  for (const fractions of matrix) {
    const row = wholeNumbers(fractions);
    const dot = (ray: readonly bigint[]): bigint =>
      ray.reduce((sum, n, i) => sum + n * row[i]!, 0n);
    const values = rays.map(dot);
    const kept = rays.filter((_, i) => values[i] === 0n);
    const used = rays.map(columnsUsed);
    const more = rays.map((_, i) => i).filter((i) => values[i]! > 0n);
    const less = rays.map((_, i) => i).filter((i) => values[i]! < 0n);
    for (const i of more)
      for (const j of less) {
        if (!adjacent(used, i, j)) continue;
        kept.push(lowestTerms(rays[i]!.map((n, k) => n * -values[j]! + rays[j]![k]! * values[i]!)));
        if (kept.length > MOST_RAYS) return undefined;
      }
    rays = kept;
  }
  return rays;
}

/** The columns that a ray uses, one bit each. */
const columnsUsed = (ray: readonly bigint[]): bigint =>
  ray.reduce((bits, n, column) => (n === 0n ? bits : bits | (1n << BigInt(column))), 0n);

/** No third ray lives within the columns that rays i and j use: their sums are an edge of the cone. */
function adjacent(used: readonly bigint[], i: number, j: number): boolean {
  const either = used[i]! | used[j]!;
  return !used.some((bits, k) => k !== i && k !== j && (bits | either) === either);
}

/** The vectors, in order, that are no combination of those before them. */
export function independent(vectors: readonly bigint[][]): bigint[][] {
  const chosen: bigint[][] = [];
  for (const vector of vectors) {
    const rows = [...chosen, vector].map((v) => v.map((n) => rational(n)));
    if (reduce(rows, vector.length).length > chosen.length) chosen.push(vector);
  }
  return chosen;
}
