import type { Uncertain } from '../../quantity/uncertain.ts';
import { measured, standardUncertainty, subtract, sum } from '../../quantity/uncertain.ts';
import type { ThinLayerEntered } from './schema.ts';
import type { PlacedSpot } from './retention.ts';

/** Lanes of one plate do not run alike: standard deviation of Rf between them. Common practice. */
export const LANE_U = 0.01;
/** Nearer to the start or the front than this, spots are not told apart. Common practice. */
export const EDGE = 0.05;

/** `unclear`: apart by two to three standard uncertainties. */
export type Likeness = 'same' | 'different' | 'unclear';

export interface Comparison {
  readonly likeness: Likeness;
  readonly difference: number;
  /** Standard uncertainty of the difference; start and front, which both share, count once. */
  readonly u: number;
  /** One of them is at the start or at the front, where everything runs together. */
  readonly atEdge: boolean;
}

/** Two spots of one plate: same up to 2 u of their difference, different from 3 u on. */
export function compareSpots(a: PlacedSpot, b: PlacedSpot): Comparison {
  const lanes: Uncertain[] =
    a.lane === b.lane
      ? []
      : [measured(`lane.${a.lane}`, 0, LANE_U), measured(`lane.${b.lane}`, 0, LANE_U)];
  const difference = subtract(a.rf, b.rf);
  const u = standardUncertainty(sum([difference, ...lanes]));
  const size = Math.abs(difference.value);
  const likeness = size <= 2 * u ? 'same' : size > 3 * u ? 'different' : 'unclear';
  return { likeness, difference: difference.value, u, atEdge: isAtEdge(a) || isAtEdge(b) };
}

export function isAtEdge({ rf }: PlacedSpot): boolean {
  return rf.value < EDGE || rf.value > 1 - EDGE;
}

/** Spots that stand alone, of one lane: those at one height, entered twice, count once. */
export function distinctSpots(spots: readonly PlacedSpot[]): PlacedSpot[] {
  const kept: PlacedSpot[] = [];
  for (const spot of spots) {
    const again = kept.some((other) => Math.abs(other.rf.value - spot.rf.value) < 1e-9);
    if (!again) kept.push(spot);
  }
  return kept.sort((a, b) => a.rf.value - b.rf.value);
}

const STRENGTH = { strong: 3, medium: 2, faint: 1 } as const;

/**
 * The spot that a lane is about: the strongest, where the person told strengths and one stands out;
 * the only one; else none.
 */
export function mainSpot(spots: readonly PlacedSpot[]): PlacedSpot | undefined {
  if (spots.length <= 1) return spots[0];
  const strength = ({ entered }: PlacedSpot) => STRENGTH[entered.intensity ?? 'medium'];
  const most = Math.max(...spots.map(strength));
  const strongest = spots.filter((spot) => strength(spot) === most);
  return strongest.length === 1 ? strongest[0] : undefined;
}

const sameName = (a: string | undefined, b: string | undefined): boolean =>
  a === undefined || b === undefined || a.trim().toLowerCase() === b.trim().toLowerCase();

/**
 * What a co-spot of two samples shows of the spots that each has alone. Spots that one of the two
 * shows anyway are no sign that they differ: `twoSpots` are more than either has. Nothing is said
 * where both are mixtures.
 */
export function coSpotSays(
  entered: ThinLayerEntered,
  placed: readonly PlacedSpot[],
  { product, other }: { readonly product: number; readonly other: number },
): 'oneSpot' | 'twoSpots' | undefined {
  const { kind, substance } = entered.lanes[other]!;
  const lane = entered.lanes.findIndex((one) => {
    if (one.kind !== 'coSpot') return false;
    const of = one.of ?? ['product', 'startingMaterial'];
    return of.includes('product') && of.includes(kind) && sameName(one.substance, substance);
  });
  if (lane < 0) return undefined;
  const [together, own, theirs] = [lane, product, other].map(
    (l) => distinctSpots(placed.filter((spot) => spot.lane === l)).length,
  );
  if (together === 0 || Math.min(own!, theirs!) !== 1) return undefined;
  return together! > Math.max(own!, theirs!) ? 'twoSpots' : 'oneSpot';
}
