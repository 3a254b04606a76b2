import type { Fingerprint } from './fingerprint.ts';
import { PLACES } from './fingerprint.ts';
import { bestProduct, commonOf, likeness, squaresOf } from './similarity.ts';
import type { Likeness } from './similarity.ts';
import type { KeptBand } from './kept-bands.ts';

/** Many fingerprints one after the other in one array, so that a search runs straight through. */
export interface PackedLibrary {
  readonly ids: readonly string[];
  readonly slopes: Int8Array;
  readonly first: Uint16Array;
  readonly past: Uint16Array;
  /** Σ of the squares of each. */
  readonly squares: Float64Array;
}

export function packLibrary(
  given: readonly { readonly id: string; readonly fingerprint: Fingerprint }[],
): PackedLibrary {
  const slopes = new Int8Array(given.length * PLACES);
  const squares = new Float64Array(given.length);
  given.forEach(({ fingerprint }, n) => {
    slopes.set(fingerprint.slopes, n * PLACES);
    squares[n] = squaresOf(fingerprint.slopes, 0, PLACES);
  });
  return {
    ids: given.map(({ id }) => id),
    slopes,
    first: Uint16Array.from(given, ({ fingerprint }) => fingerprint.first),
    past: Uint16Array.from(given, ({ fingerprint }) => fingerprint.past),
    squares,
  };
}

export interface AlikeHit extends Likeness {
  readonly id: string;
}

/** The `most` spectra that are most like this one, the best first; those that cannot be compared are left out. */
export function mostAlike(library: PackedLibrary, asked: Fingerprint, most: number): AlikeHit[] {
  const { ids, slopes, first: firsts, past: pasts, squares } = library;
  const upTo = squaresUpTo(asked.slopes);
  const hits: AlikeHit[] = [];
  let least = -1;
  for (let n = 0; n < ids.length; n++) {
    const own = { first: firsts[n]!, past: pasts[n]! };
    const common = commonOf(asked, own);
    if (common === undefined) continue;
    const { first, past } = common;
    const at = n * PLACES;
    const isWhole = first === own.first && past === own.past;
    const theirs = isWhole ? squares[n]! : squaresOf(slopes, at + first, at + past);
    const size = Math.sqrt((upTo[past]! - upTo[first]!) * theirs);
    if (size === 0) continue;
    const cosine = bestProduct(asked.slopes, slopes, at, first, past) / size;
    if (hits.length >= most && cosine <= least) continue;
    hits.push({ id: ids[n]!, ...likeness(cosine, first, past) });
    if (hits.length >= 2 * most) least = keepBest(hits, most);
  }
  keepBest(hits, most);
  return hits;
}

function squaresUpTo(slopes: Int8Array): Float64Array {
  const sums = new Float64Array(slopes.length + 1);
  for (let i = 0; i < slopes.length; i++) sums[i + 1] = sums[i]! + slopes[i]! ** 2;
  return sums;
}

/** Cuts the list to its best; of equals the first stays first. Gives the least that is still in it. */
function keepBest(hits: AlikeHit[], most: number): number {
  hits.sort((a, b) => b.similarity - a.similarity);
  if (hits.length > most) hits.length = most;
  return hits.at(-1)?.similarity ?? -1;
}

/** A band that was asked for, and the most prominent one of the spectrum near it. */
export interface MatchedBand extends KeptBand {
  readonly asked_percm: number;
}

export interface BandHit {
  readonly id: string;
  /** In the order in which they were asked for. */
  readonly bands: readonly MatchedBand[];
}

/**
 * The spectra that have a band within `tolerance_percm` of every place asked for. Those whose faintest
 * matched band is most prominent come first, of equals those that lie nearer.
 */
export function withBands(
  spectra: readonly { readonly id: string; readonly bands: readonly KeptBand[] }[],
  asked_percm: readonly number[],
  tolerance_percm: number,
): BandHit[] {
  const hits = spectra.flatMap(({ id, bands }) => {
    const matched = asked_percm.flatMap((asked) => {
      const near = bands.filter(
        ({ position_percm }) => Math.abs(position_percm - asked) <= tolerance_percm,
      );
      if (near.length === 0) return [];
      const best = near.reduce((a, b) => (b.share > a.share ? b : a));
      return [{ ...best, asked_percm: asked }];
    });
    return matched.length < asked_percm.length ? [] : [{ id, bands: matched }];
  });
  const faintest = ({ bands }: BandHit) => Math.min(...bands.map(({ share }) => share));
  const away = ({ bands }: BandHit) =>
    bands.reduce((sum, band) => sum + Math.abs(band.position_percm - band.asked_percm), 0);
  return hits.toSorted((a, b) => faintest(b) - faintest(a) || away(a) - away(b));
}
