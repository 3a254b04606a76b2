import type { Fingerprint } from './fingerprint.ts';
import { LOW_PERCM, STEP_PERCM } from './fingerprint.ts';

/** How alike two spectra are, and over which stretch they could be compared. */
export interface Likeness {
  /** 0 to 1: the cosine of the angle between the two; 1 for the same shape. */
  readonly similarity: number;
  readonly from_percm: number;
  readonly to_percm: number;
}

/** Two spectra with less in common are not compared: one group of bands alone says little. */
export const LEAST_COMMON_PERCM = 1000;
/** By how many places one may be moved along the other: 4 cm⁻¹ to either side. */
export const SHIFT = 1;

/** The stretch that both reach over, as places of the grid; undefined where it is too short. */
export function commonOf(
  a: Pick<Fingerprint, 'first' | 'past'>,
  b: Pick<Fingerprint, 'first' | 'past'>,
): { readonly first: number; readonly past: number } | undefined {
  const first = Math.max(a.first, b.first);
  const past = Math.min(a.past, b.past);
  return (past - first - 1) * STEP_PERCM < LEAST_COMMON_PERCM ? undefined : { first, past };
}

/** Σ of the squares over [first, past). */
export function squaresOf(slopes: Int8Array, first: number, past: number): number {
  let sum = 0;
  for (let i = first; i < past; i++) sum += slopes[i]! * slopes[i]!;
  return sum;
}

/**
 * The largest Σ aᵢ·bᵢ₊ₖ over [first, past) for k from −1 to 1. `at` is where b begins in `slopes`, so
 * that many may stand in one array.
 */
export function bestProduct(
  a: Int8Array,
  slopes: Int8Array,
  at: number,
  first: number,
  past: number,
): number {
  // Written out for the three places: the search spends its time here
  let [before, here, after] = [0, 0, 0];
  let last = 0;
  let value = slopes[at + first]!;
  for (let i = first; i < past; i++) {
    const next = i + 1 < past ? slopes[at + i + 1]! : 0;
    const own = a[i]!;
    before += own * last;
    here += own * value;
    after += own * next;
    last = value;
    value = next;
  }
  return Math.max(before, here, after);
}

/** Where the two are compared, in cm⁻¹. */
export const placeOf = (place: number): number => LOW_PERCM + place * STEP_PERCM;

/**
 * The same whichever of the two comes first. Undefined where they have less than 1000 cm⁻¹ in common,
 * or one of them has no band there.
 */
export function similarityOf(a: Fingerprint, b: Fingerprint): Likeness | undefined {
  const common = commonOf(a, b);
  if (common === undefined) return undefined;
  const { first, past } = common;
  const size = Math.sqrt(squaresOf(a.slopes, first, past) * squaresOf(b.slopes, first, past));
  if (size === 0) return undefined;
  const product = bestProduct(a.slopes, b.slopes, 0, first, past);
  return likeness(product / size, first, past);
}

/** Bands that rise where the other's fall are no likeness at all: nought. */
export function likeness(cosine: number, first: number, past: number): Likeness {
  return {
    similarity: Math.min(1, Math.max(0, cosine)),
    from_percm: placeOf(first),
    to_percm: placeOf(past - 1),
  };
}
