import type { TraceContext } from './context.ts';
import { canHold, isSolid } from './context.ts';
import { at, evidenceOf } from './evidence.ts';
import type { Finding } from './finding.ts';
import type { Maximum } from './maxima.ts';
import { maximaWithin } from './maxima.ts';
import type { Readings } from './readings.ts';
import { sharesOf } from './readings.ts';
import type { Explanation } from './weigh.ts';
import { isSulfonyl } from './signatures.ts';
import { about, anywhere, moved, near, weighed, whether } from './weigh.ts';

type NitroCause = 'nitro' | 'amide' | 'other';

/** Centre and standard deviation; median height beside the tallest and its factor. */
type Normal = readonly [centre: number, spread: number];

/** One kind of nitro group: how common, and both its stretches. */
interface NitroKind {
  readonly share: number;
  readonly upper: Normal;
  readonly lower: Normal;
  readonly upperShare: Normal;
  readonly lowerShare: Normal;
}

const kind = (
  share: number,
  upper: Normal,
  lower: Normal,
  upperShare: Normal,
  lowerShare: Normal,
): NitroKind => ({ share, upper, lower, upperShare, lowerShare });

/** On a carbon chain the lower stretch is weaker. Few of them are solids. */
const ALKYL = kind(0.15, [1554, 8], [1370, 13], [0.95, 1.3], [0.45, 1.6]);

/** Correlation tables, from memory: a donor on the ring lowers both stretches. */
const KINDS: readonly NitroKind[] = [
  // On a ring
  kind(0.55, [1529, 9], [1349, 8], [0.85, 1.5], [0.8, 1.6]),
  ALKYL,
  // Beside or opposite OH, OR, NH2
  kind(0.2, [1508, 11], [1332, 14], [0.8, 1.5], [0.85, 1.5]),
  // Opposite NR2
  kind(0.05, [1486, 10], [1310, 10], [0.65, 1.5], [0.95, 1.3]),
  // On an azole, or beside an O–H that bonds to it
  kind(0.05, [1535, 10], [1366, 12], [0.85, 1.4], [0.8, 1.5]),
];

const RANGE_PERCM = 110;

/** NO2: two strong bands together, and the bend near 850 beside them. */
export function nitro({ context, xh, causes }: Readings): Finding {
  const amides = sharesOf(causes, ['amideNh', 'amideNh2', 'conjugatedNh']);
  const { view, state, maxima } = context;
  // The oil's band at 1462 lifts the valleys beside the upper one.
  const rise = state === 'mull' ? 0.15 : 0.3;
  const tall = ({ prominence, height }: Maximum) =>
    prominence > rise * height && height > 0.1 * view.tallest;
  const uppers = maximaWithin(maxima, 1474, 1580).filter(tall);
  const lowers = maximaWithin(maxima, 1282, 1388).filter(
    (one) => tall(one) && !(state === 'mull' && Math.abs(one.position_percm - 1377) < 6),
  );
  const bend = maximaWithin(maxima, 815, 885).some(({ height }) => height > 0.12 * view.tallest);
  const topUpper = Math.max(...uppers.map(({ height }) => height));
  const topLower = Math.max(...lowers.map(({ height }) => height));
  const pairs = uppers.flatMap((upper) =>
    lowers.map((lower) => ({
      upper,
      lower,
      chance: nitroChance(
        context,
        {
          amidePair: xh.amidePair,
          amides,
          bend,
          foremost: upper.height > 0.75 * topUpper && lower.height > 0.8 * topLower,
        },
        upper,
        lower,
      ),
    })),
  );
  const isOiled = !xh.amidePair && amides < 0.3 && underOil(context, uppers);
  const best = pairs.sort((a, b) => b.chance - a.chance)[0];
  if (best === undefined || (isOiled && best.chance < 0.2)) return withoutPair(isOiled);
  const { upper, lower } = best;
  // The upper of the two SO2 bands lies where the lower one of a nitro group does.
  const chance = isSulfonyl(context) ? moved(best.chance, 0.35) : best.chance;
  return {
    probability: chance,
    evidence: [
      evidenceOf(context, 'NO₂ stretch, asymmetric', upper),
      evidenceOf(context, 'NO₂ stretch, symmetric', lower),
    ],
    reasons: [
      `Bands at ${at(upper.position_percm)} and ${at(lower.position_percm)}; a nitro group needs ` +
        `both, and both strong${bend ? '.' : '; its bend near 850 cm⁻¹ is missing.'}`,
    ],
  };
}

function withoutPair(isOiled: boolean): Finding {
  const bare = {
    evidence: [],
    reasons: ['The pair of strong bands of a nitro group is not here.'],
  };
  if (!isOiled) return { ...bare, probability: 0.004 };
  return {
    ...bare,
    probability: 0.2,
    hidden: 'The oil of the mull absorbs where the lower of them can lie.',
  };
}

/** The strong narrow upper band of an azole's nitro group, whose lower one the oil covers. */
function underOil(context: TraceContext, uppers: readonly Maximum[]): boolean {
  return (
    context.state === 'mull' &&
    canHold(context, 'N') &&
    uppers.some(
      ({ position_percm: p, height, width_percm }) =>
        p > 1528 && p < 1547 && width_percm < 24 && height > 0.75 * context.view.tallest,
    )
  );
}

interface Partners {
  readonly amidePair: boolean;
  readonly amides: number;
  readonly bend: boolean;
  /** Is nothing near either of them much taller? */
  readonly foremost: boolean;
}

function nitroChance(
  context: TraceContext,
  { amidePair, amides, bend, foremost }: Partners,
  upper: Maximum,
  lower: Maximum,
): number {
  if (!canHold(context, 'N') || !canHold(context, 'O')) return 0.002;
  const spread = context.view.positionU_percm;
  const place = (x: number, [centre, sd]: Normal): number =>
    near(x, centre, Math.hypot(sd, spread), RANGE_PERCM);
  const [high, low] = [upper.height / context.view.tallest, lower.height / context.view.tallest];
  const together = KINDS.reduce(
    (sum, one) =>
      sum +
      (one === ALKYL && isSolid(context.state) ? 0.4 : 1) *
        one.share *
        Math.exp(
          place(upper.position_percm, one.upper) +
            place(lower.position_percm, one.lower) +
            about(high, ...one.upperShare) +
            about(low, ...one.lowerShare),
        ),
    0,
  );
  const ring = place(upper.position_percm, [1501, 9]);
  const elsewhere =
    Math.log(0.5 * Math.exp(ring) + 0.5 * Math.exp(anywhere(RANGE_PERCM))) + anywhere(RANGE_PERCM);
  const known = context.elements === undefined ? 1 : 1.6;
  const explanations: Explanation<NitroCause>[] = [
    {
      name: 'other',
      prior: 0.84,
      logLikelihood:
        about(high, 0.3, 2) +
        about(low, 0.32, 1.9) +
        elsewhere +
        whether(amidePair, 0.06) +
        whether(bend, 0.6) +
        whether(foremost, 0.4),
    },
    {
      name: 'amide',
      prior: 0.05 + 0.2 * amides,
      logLikelihood:
        about(high, 0.6, 1.6) +
        about(low, 0.35, 2) +
        place(upper.position_percm, [1540, 17]) +
        anywhere(RANGE_PERCM) +
        whether(amidePair, 0.9) +
        whether(bend, 0.55) +
        whether(foremost, 0.4),
    },
    {
      name: 'nitro',
      prior: 0.08 * known,
      logLikelihood:
        Math.log(together) +
        whether(amidePair, 0.12) +
        whether(bend, 0.95) +
        whether(foremost, 0.85),
    },
  ];
  return weighed(explanations).get('nitro') ?? 0;
}
