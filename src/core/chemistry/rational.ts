/** An exact fraction in lowest terms, its denominator positive. */
export interface Rational {
  readonly over: bigint;
  readonly under: bigint;
}

const magnitude = (n: bigint): bigint => (n < 0n ? -n : n);

export function gcd(a: bigint, b: bigint): bigint {
  let [x, y] = [magnitude(a), magnitude(b)];
  while (y !== 0n) [x, y] = [y, x % y];
  return x;
}

export const lcm = (a: bigint, b: bigint): bigint => magnitude(a * b) / gcd(a, b);

export function rational(over: bigint, under = 1n): Rational {
  const common = gcd(over, under) || 1n;
  const sign = under < 0n ? -1n : 1n;
  return { over: (sign * over) / common, under: (sign * under) / common };
}

export const ZERO = rational(0n);

export const subtract = (a: Rational, b: Rational): Rational =>
  rational(a.over * b.under - b.over * a.under, a.under * b.under);

export const multiply = (a: Rational, b: Rational): Rational =>
  rational(a.over * b.over, a.under * b.under);

export const divide = (a: Rational, b: Rational): Rational =>
  rational(a.over * b.under, a.under * b.over);

/** Largest denominator that a count of atoms is taken to have. */
const LARGEST_UNDER = 10_000;

/**
 * The simplest fraction within 1e-9 (relative) of a number, by continued fractions: 0.5 is 1/2 and
 * 0.333333333333 is 1/3. Denominators go up to 10,000; beyond that the decimal itself is taken.
 */
export function rationalNear(value: number): Rational {
  if (Number.isInteger(value)) return rational(BigInt(value));
  const close = 1e-9 * Math.max(1, Math.abs(value));
  let [over, overBefore, under, underBefore] = [Math.floor(value), 1, 1, 0];
  let rest = value - over;
  while (Math.abs(over / under - value) > close && rest !== 0) {
    const term = Math.floor(1 / rest);
    rest = 1 / rest - term;
    [over, overBefore] = [term * over + overBefore, over];
    [under, underBefore] = [term * under + underBefore, under];
    if (under > LARGEST_UNDER) return rational(BigInt(Math.round(value * 1e9)), 1_000_000_000n);
  }
  return rational(BigInt(over), BigInt(under));
}
