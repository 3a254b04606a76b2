/**
 * A value that knows what it was computed from: for each independent measurement, by its id, the
 * part (∂value/∂x)·u(x), with its sign. A tare that is subtracted twice and added once therefore
 * correlates by itself. Linear propagation: JCGM 100:2008 (GUM), 5.1.2 and F.1.2.3.
 */
export interface Uncertain {
  readonly value: number;
  readonly parts: ReadonlyMap<string, number>;
}

const NO_PARTS: ReadonlyMap<string, number> = new Map();

export function exact(value: number): Uncertain {
  return { value, parts: NO_PARTS };
}

/** A measurement with its standard uncertainty; the same id always means the same measurement. */
export function measured(id: string, value: number, u: number): Uncertain {
  return { value, parts: new Map([[id, Math.abs(u)]]) };
}

/** A value with the parts of its terms, each multiplied by ∂value/∂term. */
function combine(value: number, terms: readonly (readonly [Uncertain, number])[]): Uncertain {
  const parts = new Map<string, number>();
  for (const [term, slope] of terms)
    for (const [id, part] of term.parts) parts.set(id, (parts.get(id) ?? 0) + slope * part);
  return { value, parts };
}

export function add(x: Uncertain, y: Uncertain): Uncertain {
  return combine(x.value + y.value, [
    [x, 1],
    [y, 1],
  ]);
}

export function subtract(x: Uncertain, y: Uncertain): Uncertain {
  return combine(x.value - y.value, [
    [x, 1],
    [y, -1],
  ]);
}

export function multiply(x: Uncertain, y: Uncertain): Uncertain {
  return combine(x.value * y.value, [
    [x, y.value],
    [y, x.value],
  ]);
}

export function divide(x: Uncertain, y: Uncertain): Uncertain {
  const value = x.value / y.value;
  return combine(value, [
    [x, 1 / y.value],
    [y, -value / y.value],
  ]);
}

/** x times an exact number. */
export function scale(x: Uncertain, k: number): Uncertain {
  return combine(x.value * k, [[x, k]]);
}

/** x to an exact power. */
export function power(x: Uncertain, n: number): Uncertain {
  return combine(x.value ** n, [[x, n === 0 ? 0 : n * x.value ** (n - 1)]]);
}

/** Of no terms: an exact 0. */
export function sum(xs: readonly Uncertain[]): Uncertain {
  return combine(
    xs.reduce((all, x) => all + x.value, 0),
    xs.map((x) => [x, 1] as const),
  );
}

/**
 * The smallest, with its parts. Where two are closer than their uncertainties the true minimum is
 * a little less, and its distribution is skew; ask `monteCarlo` then. Of no terms: an exact NaN.
 */
export function minimum(xs: readonly Uncertain[]): Uncertain {
  let least = xs[0] ?? exact(Number.NaN);
  for (const x of xs) if (x.value < least.value) least = x;
  return least;
}

export function sin(x: Uncertain): Uncertain {
  return combine(Math.sin(x.value), [[x, Math.cos(x.value)]]);
}

export function cos(x: Uncertain): Uncertain {
  return combine(Math.cos(x.value), [[x, -Math.sin(x.value)]]);
}

export function exp(x: Uncertain): Uncertain {
  return combine(Math.exp(x.value), [[x, Math.exp(x.value)]]);
}

/** The natural logarithm. */
export function log(x: Uncertain): Uncertain {
  return combine(Math.log(x.value), [[x, 1 / x.value]]);
}

/** The cube root of the spacing of doubles: the step at which a central difference errs least. */
const STEP = Math.cbrt(Number.EPSILON);

/** Any function of several values; its slopes come from central differences. */
export function apply(f: (...xs: number[]) => number, xs: readonly Uncertain[]): Uncertain {
  const values = xs.map((x) => x.value);
  const value = f(...values);
  const at = (i: number, x: number): number => f(...values.map((v, j) => (j === i ? x : v)));
  const slopes = xs.map((x, i) => {
    const size = Math.max(Math.abs(x.value), standardUncertainty(x));
    if (x.parts.size === 0 || size === 0) return 0;
    // Steps that doubles hold exactly, and one side alone where f ends at the other.
    const above = x.value + size * STEP;
    const below = x.value - size * STEP;
    const [high, low] = [at(i, above), at(i, below)];
    if (!Number.isFinite(high)) return (value - low) / (x.value - below);
    if (!Number.isFinite(low)) return (high - value) / (above - x.value);
    return (high - low) / (above - below);
  });
  return combine(
    value,
    xs.map((x, i) => [x, slopes[i]!] as const),
  );
}

/** The combined standard uncertainty u(x), in the unit of x. */
export function standardUncertainty(x: Uncertain): number {
  let squares = 0;
  for (const part of x.parts.values()) squares += part * part;
  return Math.sqrt(squares);
}

/** u(x)/|x|; infinite where x is 0 and its uncertainty is not. */
export function relativeUncertainty(x: Uncertain): number {
  const u = standardUncertainty(x);
  return u === 0 ? 0 : u / Math.abs(x.value);
}

/** The covariance that follows from the measurements which both values rest on. */
export function covariance(x: Uncertain, y: Uncertain): number {
  let total = 0;
  for (const [id, part] of x.parts) total += part * (y.parts.get(id) ?? 0);
  return total;
}

/** Between −1 and 1; 0 where either value is exact. */
export function correlation(x: Uncertain, y: Uncertain): number {
  const product = standardUncertainty(x) * standardUncertainty(y);
  return product === 0 ? 0 : Math.min(1, Math.max(-1, covariance(x, y) / product));
}

export interface BudgetLine {
  readonly id: string;
  /** (∂value/∂x)·u(x), with its sign. */
  readonly part: number;
  /** Of the variance, from 0 to 1. */
  readonly share: number;
}

/** What contributes to u(x), the largest first. */
export function budget(x: Uncertain): BudgetLine[] {
  const variance = standardUncertainty(x) ** 2;
  return [...x.parts]
    .map(([id, part]) => ({ id, part, share: variance === 0 ? 0 : (part * part) / variance }))
    .sort((a, b) => b.share - a.share || (a.id < b.id ? -1 : 1));
}

/** The expanded uncertainty U = k·u(x). */
export function expanded(x: Uncertain, k = 2): number {
  return k * standardUncertainty(x);
}

/**
 * The lower triangle L with L·Lᵀ = the matrix (Cholesky). A matrix that is only semidefinite, as
 * that of fully correlated inputs, is taken; one that is no correlation at all is our bug.
 */
export function cholesky(matrix: readonly (readonly number[])[]): number[][] {
  const lower = matrix.map((row) => row.map(() => 0));
  matrix.forEach((row, i) => {
    for (let j = 0; j <= i; j++) {
      let rest = row[j]!;
      for (let k = 0; k < j; k++) rest -= lower[i]![k]! * lower[j]![k]!;
      const pivot = lower[j]![j]!;
      if (i === j && rest < -1e-9 * Math.abs(row[i]!))
        throw new RangeError('the correlations contradict one another');
      lower[i]![j] = i === j ? Math.sqrt(Math.max(rest, 0)) : pivot === 0 ? 0 : rest / pivot;
    }
  });
  return lower;
}

/**
 * Correlated inputs: values with standard uncertainties `u` and correlation coefficients `r`.
 * Each rests on as many independent parts as there are inputs, named by `ids`; which part a
 * budget shows under which id depends on their order, the variances and covariances do not.
 */
export function correlated(
  ids: readonly string[],
  values: readonly number[],
  u: readonly number[],
  r: readonly (readonly number[])[],
): Uncertain[] {
  const lower = cholesky(r);
  return values.map((value, i) => {
    const parts = new Map<string, number>();
    ids.forEach((id, j) => {
      const part = (u[i] ?? 0) * (lower[i]?.[j] ?? 0);
      if (part !== 0) parts.set(id, part);
    });
    return { value, parts };
  });
}

export type Distribution = 'rectangular' | 'triangular' | 'arcsine' | 'normal95';

/** What a half-width is divided by to give a standard uncertainty: GUM 4.3, QUAM 8.1. */
const DIVISOR: Readonly<Record<Distribution, number>> = {
  rectangular: Math.sqrt(3),
  triangular: Math.sqrt(6),
  arcsine: Math.SQRT2,
  normal95: 1.96,
};

/** Type B: the standard uncertainty of a quantity known to lie within ± a. */
export function fromHalfWidth(a: number, distribution: Distribution): number {
  return Math.abs(a) / DIVISOR[distribution];
}
