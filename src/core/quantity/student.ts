import type { Uncertain } from './uncertain.ts';
import { standardUncertainty } from './uncertain.ts';

/**
 * Effective degrees of freedom of u(x) by Welch–Satterthwaite (GUM G.4.1, equation G.2b), not
 * truncated. A measurement without an entry counts as known exactly (infinitely many).
 */
export function effectiveDegreesOfFreedom(
  x: Uncertain,
  dofById: ReadonlyMap<string, number>,
): number {
  let total = 0;
  for (const [id, part] of x.parts) {
    const dof = dofById.get(id) ?? Infinity;
    if (part !== 0) total += part ** 4 / dof;
  }
  return total === 0 ? Infinity : standardUncertainty(x) ** 4 / total;
}

/**
 * The coverage factor k with P(|t| < k) = p for Student's t with `dof` degrees of freedom, which
 * need not be whole (GUM G.3 and table G.2). NaN outside 0 < p < 1 or for dof not above 0.
 */
export function coverageFactor(dof: number, p = 0.95): number {
  if (!(dof > 0) || !(p > 0 && p < 1)) return Number.NaN;
  if (dof <= MANY) return quantile(dof, p);
  // Abramowitz and Stegun 26.7.5: t = z + (z³+z)/4ν + (5z⁵+16z³+3z)/96ν² + ...
  const t = quantile(MANY, p);
  let z = t;
  for (let i = 0; i < 20; i++) z = t - excess(z, MANY);
  return z + (Number.isFinite(dof) ? excess(z, dof) : 0);
}

const MANY = 1e4;

function excess(z: number, dof: number): number {
  return (z ** 3 + z) / (4 * dof) + (5 * z ** 5 + 16 * z ** 3 + 3 * z) / (96 * dof ** 2);
}

/** By halving: with x = ν/(ν+t²), P(|t| > k) is the incomplete beta function I_x(ν/2, 1/2). */
function quantile(dof: number, p: number): number {
  let low = 0;
  let high = 1;
  while (tail(high, dof) > 1 - p && high < 1e300) {
    low = high;
    high *= 2;
  }
  for (let i = 0; i < 100; i++) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) break;
    if (tail(middle, dof) > 1 - p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function tail(t: number, dof: number): number {
  return incompleteBeta(dof / (dof + t * t), dof / 2, 0.5);
}

/** Regularised incomplete beta function, by its continued fraction (DLMF 8.17.22). */
function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  // The fraction converges fast only on this side (DLMF 8.17.4 gives the other).
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const front = Math.exp(
    a * Math.log(x) + b * Math.log1p(-x) + logGamma(a + b) - logGamma(a) - logGamma(b),
  );
  return (front / a) * betaFraction(x, a, b);
}

/** Lentz's method. */
function betaFraction(x: number, a: number, b: number): number {
  const tiny = 1e-300;
  const safe = (y: number): number => (Math.abs(y) < tiny ? tiny : y);
  let c = 1;
  let d = 1 / safe(1 - ((a + b) * x) / (a + 1));
  let value = d;
  for (let m = 1; m < 10_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / safe(1 + even * d);
    c = safe(1 + even / c);
    value *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / safe(1 + odd * d);
    c = safe(1 + odd / c);
    value *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) break;
  }
  return value;
}

/** ln Γ(x) for x > 0: Stirling's series (DLMF 5.11.1) after a shift above 15. */
function logGamma(x: number): number {
  let shift = 0;
  let y = x;
  while (y < 15) shift += Math.log(y++);
  const z = 1 / (y * y);
  const series = (1 / 12 - z * (1 / 360 - z * (1 / 1260 - z * (1 / 1680 - z / 1188)))) / y;
  return (y - 0.5) * Math.log(y) - y + 0.5 * Math.log(2 * Math.PI) + series - shift;
}
