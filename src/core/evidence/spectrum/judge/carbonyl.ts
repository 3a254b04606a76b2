import type { TraceContext } from './context.ts';
import { canHold, isSolid } from './context.ts';
import type { Maximum } from './maxima.ts';
import { maximaWithin } from './maxima.ts';
import { besideClipped } from './view.ts';
import type { Explanation } from './weigh.ts';
import { about, near, weighed } from './weigh.ts';

type Cause =
  | 'carbonyl'
  | 'minorCarbonyl'
  | 'traceCarbonyl'
  | 'alkene'
  | 'strongAlkene'
  | 'imine'
  | 'amineBend'
  | 'ring'
  | 'nitrateOrNitrite'
  | 'fluoroAlkene'
  | 'carboxylate'
  | 'water'
  | 'combination';

/** A family of bands: where, how tall beside the tallest band, how wide, how common. */
interface Family {
  readonly cause: Cause;
  readonly prior: number;
  /** Positions: share, centre and standard deviation of each class. */
  readonly places: readonly (readonly [share: number, centre: number, sd: number])[];
  readonly share: number;
  readonly shareFactor: number;
  readonly width: number;
  readonly widthFactor: number;
  readonly needs?: string;
}

const RANGE_PERCM = 270;

/** Without nitrogen there are no amides: of the lowest class chelates and quinones remain. */
const LOWEST_WITHOUT_N = 0.35;

/** Anhydrides and acid halides, esters, ketones with acids and aldehydes, aryl, amides. */
const CONDENSED_PLACES = [
  [0.06, 1785, 22],
  [0.3, 1737, 12],
  [0.26, 1712, 11],
  [0.22, 1686, 12],
  [0.16, 1656, 13],
] as const;

/** The same classes without neighbours to bond to: higher by 15 to 70 (Nyquist's vapour tables). */
const GAS_PLACES = [
  [0.08, 1805, 22],
  [0.34, 1763, 13],
  [0.32, 1736, 13],
  [0.18, 1708, 13],
  [0.08, 1682, 14],
] as const;

const COMMON: readonly Family[] = [
  family('alkene', 0.09, [[1, 1648, 14]], [0.18, 1.9], [18, 1.5]),
  family('strongAlkene', 0.035, [[1, 1640, 22]], [0.6, 1.5], [25, 1.5]),
  family('imine', 0.045, [[1, 1643, 18]], [0.45, 1.8], [25, 1.5], 'N'),
  family(
    'amineBend',
    0.06,
    [
      [0.7, 1616, 11],
      [0.3, 1640, 14],
    ],
    [0.5, 1.7],
    [40, 1.5],
    'N',
  ),
  family('fluoroAlkene', 0.008, [[1, 1745, 40]], [0.5, 1.8], [20, 1.5], 'F'),
  family('ring', 0.3, [[1, 1600, 11]], [0.3, 2], [18, 1.7]),
  family('nitrateOrNitrite', 0.01, [[1, 1645, 13]], [0.92, 1.2], [25, 1.5], 'N'),
  family('combination', 0.35, [[1, 1760, 90]], [0.035, 1.9], [25, 2]),
];

const CONDENSED: readonly Family[] = [
  family('carbonyl', 0.4, CONDENSED_PLACES, [0.85, 1.35], [26, 1.6], 'O'),
  family('minorCarbonyl', 0.04, CONDENSED_PLACES, [0.32, 1.7], [24, 1.7], 'O'),
  family('traceCarbonyl', 0.06, CONDENSED_PLACES, [0.11, 1.8], [24, 1.7], 'O'),
  family('carboxylate', 0.02, [[1, 1585, 25]], [0.9, 1.3], [60, 1.5], 'O'),
  family('water', 0.1, [[1, 1636, 9]], [0.05, 1.9], [60, 1.5]),
  ...COMMON,
];

/** Of the others only these move in the vapour. */
const HIGHER_IN_GAS: Partial<Record<Cause, Family['places']>> = {
  imine: [[1, 1655, 16]],
  nitrateOrNitrite: [[1, 1668, 14]],
};

const GAS: readonly Family[] = [
  family('carbonyl', 0.4, GAS_PLACES, [0.8, 1.4], [26, 1.6], 'O'),
  family('minorCarbonyl', 0.03, GAS_PLACES, [0.3, 1.7], [26, 1.7], 'O'),
  family('traceCarbonyl', 0.04, GAS_PLACES, [0.09, 1.8], [26, 1.7], 'O'),
  ...COMMON.map((one) => ({ ...one, places: HIGHER_IN_GAS[one.cause] ?? one.places })),
];

function family(
  cause: Cause,
  prior: number,
  places: Family['places'],
  [share, shareFactor]: readonly [number, number],
  [width, widthFactor]: readonly [number, number],
  needs?: string,
): Family {
  const bare = { cause, prior, places, share, shareFactor, width, widthFactor };
  return needs === undefined ? bare : { ...bare, needs };
}

export interface CarbonylReading {
  readonly probability: number;
  /** The band that speaks most for a C=O. */
  readonly band?: Maximum;
  /** Every band that is more likely a C=O than not. */
  readonly bands: readonly Maximum[];
  /** That the band is a C=O of a small part of the sample: an impurity, a rest. */
  readonly asTrace: number;
  readonly rivals: readonly { readonly cause: Cause; readonly share: number }[];
}

/** Reads the double-bond region: is one of its bands a C=O stretch? */
export function readCarbonyl(context: TraceContext): CarbonylReading {
  const { maxima, view } = context;
  const low = context.state === 'gas' ? 1640 : 1615;
  const candidates = maximaWithin(maxima, low, 1880)
    .filter((band) => band.height > 0.05 * view.tallest && band.prominence > 0.25 * band.height)
    .map((band) => ({ band, causes: causesOf(context, band) }))
    .map((one) => ({ ...one, chance: carbonylShare(one.causes) }))
    .sort((a, b) => b.chance - a.chance);
  const best = candidates[0];
  if (best === undefined)
    return { probability: missed(context), bands: [], asTrace: 0, rivals: [] };
  const probability =
    1 - candidates.reduce((none, { chance }) => none * (1 - chance), 1 - missed(context));
  return {
    probability: Math.min(0.995, Math.max(best.chance, 0.5 * (best.chance + probability))),
    band: best.band,
    bands: candidates.filter(({ chance }) => chance > 0.5).map(({ band }) => band),
    asTrace: Math.max(...candidates.map(({ causes }) => causes.get('traceCarbonyl') ?? 0)),
    rivals: [...best.causes]
      .filter(([cause]) => cause !== 'carbonyl' && cause !== 'minorCarbonyl')
      .map(([cause, share]) => ({ cause, share }))
      .sort((a, b) => b.share - a.share)
      .slice(0, 2),
  };
}

/** A C=O that shows no band is rare: bonded in a chelate, or a record without the region. */
function missed(context: TraceContext): number {
  if (!canHold(context, 'O')) return 0.002;
  return isSolid(context.state) ? 0.015 : 0.008;
}

const carbonylShare = (causes: ReadonlyMap<Cause, number>): number =>
  (causes.get('carbonyl') ?? 0) + (causes.get('minorCarbonyl') ?? 0);

function causesOf(context: TraceContext, band: Maximum): Map<Cause, number> {
  const families = context.state === 'gas' ? GAS : CONDENSED;
  const share = Math.min(1, band.height / context.view.tallest);
  const explanations = families
    .filter(({ needs }) => needs === undefined || canHold(context, needs))
    .map((one): Explanation<Cause> => {
      const logLikelihood =
        Math.log(placeDensity(context, band.position_percm, one)) +
        about(share, besideClipped(one.share, context.view), one.shareFactor) +
        0.5 * about(band.width_percm, one.width, one.widthFactor);
      return { name: one.cause, prior: one.prior, logLikelihood };
    });
  return weighed(explanations);
}

function placeDensity(context: TraceContext, position_percm: number, family: Family): number {
  const spread = context.view.positionU_percm;
  const noAmides = family.needs === 'O' && family.places.length > 1 && !canHold(context, 'N');
  const last = family.places.length - 1;
  return family.places.reduce((sum, [part, centre, sd], i) => {
    const common = noAmides && i === last ? part * LOWEST_WITHOUT_N : part;
    return (
      sum + common * Math.exp(near(position_percm, centre, Math.hypot(sd, spread), RANGE_PERCM))
    );
  }, 0);
}
