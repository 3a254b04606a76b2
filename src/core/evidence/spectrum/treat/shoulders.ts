import type { Bend } from './bend.ts';
import type { Peak } from './peaks.ts';

/** How far a bend must stand above what noise alone makes of it. */
const SURE = 6;
/** A band bends y by this over its half-distance between inflexions squared: Gauss 1, Lorentz 1.5. */
const SHAPE = 1;
/** A shoulder keeps at least this part of its bend when the nearest flank is the deeper one. */
const APART = 0.25;
const CORNER_PERCM = 3;

/**
 * Bands without a summit of their own: places where y bends downward between two inflexions, away
 * from every peak. The second derivative tells them from a plain flank, which bends upward.
 */
export function shouldersOf(
  x: Float64Array,
  y: Float64Array,
  { second, gain }: Bend,
  peaks: readonly Peak[],
  { least, noise }: { readonly least: number; readonly noise: number },
): Peak[] {
  const found: Peak[] = [];
  let next = 0;
  for (let i = 2; i < x.length - 2; i++) {
    if (!(second[i]! < 0 && second[i]! <= second[i - 1]! && second[i]! < second[i + 1]!)) continue;
    if (-second[i]! < SURE * noise * gain[i]!) continue;
    const position = x[i]!;
    while (next < peaks.length && peaks[next]!.position_percm < position) next++;
    const lower = edgeOf(x, second, i, -1);
    const upper = edgeOf(x, second, i, 1);
    // A summit within the same downward bend is this band already
    const beside = [peaks[next - 1], peaks[next]].some((peak) => {
      if (peak === undefined) return false;
      // A flat top bends at its corners; its uncertainty tells how far they are
      const slack = Math.sqrt(3) * peak.position_u_percm + CORNER_PERCM;
      if (Math.abs(peak.position_percm - position) <= slack) return true;
      return peak.position_percm >= lower.at && peak.position_percm <= upper.at;
    });
    if (beside) continue;
    const z = (upper.at - lower.at) / 2;
    const prominence = SHAPE * -second[i]! * z * z;
    if (prominence < least || y[i]! < least) continue;
    // Ripples beside a strong band are shallow against the rise that parts them
    const parted = Math.min(lower.beyond, upper.beyond);
    if (parted < APART * -second[i]! && !lower.inside && !upper.inside) continue;
    found.push({
      position_percm: position,
      height: y[i]!,
      prominence,
      // Between the inflexions lies 0.85 of the full width of a Gaussian band at half height
      width_percm: (2 * z) / 0.85,
      position_u_percm: Math.max(z / 4, (x[i + 1]! - x[i - 1]!) / 2),
      kind: 'shoulder',
    });
  }
  return found;
}

interface Edge {
  /** Where the downward bend ends: an inflexion, or the dent towards the next band. */
  readonly at: number;
  /** How far the bend rises there, above the shoulder's own. */
  readonly beyond: number;
  /** The bend never turned upward: another band follows at once. */
  readonly inside: boolean;
}

function edgeOf(x: Float64Array, second: Float64Array, from: number, step: 1 | -1): Edge {
  let i = from;
  while (i + step > 0 && i + step < x.length - 1) {
    const [here, there] = [second[i]!, second[i + step]!];
    if (there >= 0) {
      const share = here / (here - there);
      const at = x[i]! + share * (x[i + step]! - x[i]!);
      return { at, beyond: -second[from]!, inside: false };
    }
    if (there < here) return { at: x[i]!, beyond: here - second[from]!, inside: true };
    i += step;
  }
  return { at: x[i]!, beyond: -second[from]!, inside: false };
}
