import type { StructureFacts } from '../../structure.ts';
import type { ExpectedBand, Intensity, IrBand } from './bands.ts';
import { bandsFor, vibrationKind } from './bands.ts';
import type { TraceContext } from './context.ts';
import { at, evidenceOf, shareText } from './evidence.ts';
import type { BandEvidence, GroupJudgement, JudgedGroup, Verdict } from './group-judgement.ts';
import { whatHides } from './hiding.ts';
import type { Maximum } from './maxima.ts';
import { leastShare, maximaWithin, mostProminent } from './maxima.ts';
import { isChelated } from './structure-groups.ts';
import { moved } from './weigh.ts';

/** A band that the structure should give, looked for in the trace. */
export interface BandJudgement {
  readonly id: string;
  /** "C=O stretch". */
  readonly what: string;
  /** Of data/structure_patterns.csv. */
  readonly pattern: string;
  readonly window_percm: readonly [low: number, high: number];
  readonly duty: 'must' | 'may';
  readonly intensity: Intensity;
  /** Of the band: does the trace show one that fits, none, or does it not tell? */
  readonly verdict: Verdict;
  /** That it is a band of this group. */
  readonly probability: number;
  /** `little`: a band is there, but at this place most samples have one. */
  readonly proves: 'much' | 'little';
  readonly evidence?: BandEvidence;
  readonly reasons: readonly string[];
  /** Atom numbers along the SMILES, one list a group. */
  readonly atoms: readonly (readonly number[])[];
  readonly source: string;
}

/** Least usual height of each intensity, beside the tallest band; common practice. */
const LEAST_SHARE: Readonly<Record<Intensity, number>> = {
  vs: 0.25,
  s: 0.12,
  m: 0.03,
  w: 0.01,
  v: 0.01,
};

/** X–H stretches are judged by shape, not by a window: by the judgement of their group. */
const BY_GROUP: Readonly<Record<string, JudgedGroup>> = {
  'O–H stretch': 'oh',
  'N–H stretch': 'nh',
};

/** What a structure on paper is worth before the trace is looked at. */
const PRIOR = 0.6;
const FIRM = { present: 0.8, absent: 0.12 };

/** Every band that the structure should or may show, by the table, judged against the trace. */
export function judgeExpected(
  context: TraceContext,
  facts: StructureFacts,
  groups: readonly GroupJudgement[],
): readonly BandJudgement[] {
  return bandsFor(facts, context.state).map((expected) =>
    judgedBand(context, facts, groups, expected),
  );
}

function judgedBand(
  context: TraceContext,
  facts: StructureFacts,
  groups: readonly GroupJudgement[],
  { band, atoms }: ExpectedBand,
): BandJudgement {
  const kind = vibrationKind(band);
  const bare = {
    id: band.id,
    what: band.vibration,
    pattern: band.pattern,
    window_percm: [band.low_percm, band.high_percm] as const,
    duty: band.duty,
    intensity: band.intensity,
    atoms,
    source: band.source,
  };
  const hidden = whatHides(context, band.low_percm, band.high_percm);
  if (hidden !== undefined)
    return {
      ...bare,
      verdict: 'cannotTell',
      probability: PRIOR,
      proves: 'little',
      reasons: [hidden],
    };
  const group = BY_GROUP[kind];
  if (group !== undefined && band.shape !== 'sharp')
    return { ...bare, ...byGroup(facts, groups, band.pattern.startsWith('acid') ? 'acid' : group) };
  return { ...bare, ...byWindow(context, band) };
}

type Found = Pick<BandJudgement, 'verdict' | 'probability' | 'proves' | 'evidence' | 'reasons'>;

function byGroup(
  facts: StructureFacts,
  groups: readonly GroupJudgement[],
  group: JudgedGroup,
): Found {
  const judged = groups.find((one) => one.group === group)!;
  // The structure says that the group is there; of all samples a quarter has it.
  const probability = moved(judged.probability, 4);
  const evidence = judged.evidence[0];
  const faint = isChelated(facts) && probability < FIRM.present;
  const firm =
    judged.verdict === 'cannotTell' && probability < FIRM.present
      ? 'cannotTell'
      : verdictAt(probability);
  return {
    verdict: faint ? 'cannotTell' : firm,
    probability,
    proves: 'much',
    ...(evidence && { evidence }),
    reasons: faint
      ? [
          ...judged.reasons,
          'Bonded inside the molecule, this X–H can be too faint and wide to see.',
        ]
      : judged.reasons,
  };
}

const verdictAt = (probability: number): Verdict =>
  probability >= FIRM.present ? 'present' : probability <= FIRM.absent ? 'absent' : 'cannotTell';

function byWindow(context: TraceContext, band: IrBand): Found {
  const { view } = context;
  const slack = 2 * view.positionU_percm;
  const [low, high] = [band.low_percm - slack, band.high_percm + slack];
  const least = Math.max(LEAST_SHARE[band.intensity], leastShare(view));
  const inside = maximaWithin(context.maxima, low, high).filter((one) =>
    tallEnough(context, one, least),
  );
  const best = bestOf(inside, band);
  const byChance = chanceOfAny(context, low, high, least);
  const ifThere = band.duty === 'must' ? 0.96 : 0.65;
  if (best === undefined) return notInWindow(context, band, [low, high], least, ifThere, byChance);
  const inCore =
    best.position_percm >= band.coreLow_percm - slack &&
    best.position_percm <= band.coreHigh_percm + slack;
  const probability = moved(PRIOR, (ifThere * (inCore ? 1 : 0.45)) / byChance);
  const proves = probability >= FIRM.present ? 'much' : 'little';
  return {
    verdict: 'present',
    probability,
    proves,
    evidence: evidenceOf(context, band.vibration, best),
    reasons: [
      `The band at ${at(best.position_percm)}, ${shareText(best.height / view.tallest)}, lies in the window` +
        (inCore ? '.' : ', at its edge.'),
      ...(proves === 'little' ? ['So many samples have a band there that it proves little.'] : []),
    ],
  };
}

/** How far beyond its window a strong band is still taken for it, displaced. */
const BEYOND_PERCM = 35;

function notInWindow(
  context: TraceContext,
  band: IrBand,
  [low, high]: readonly [number, number],
  least: number,
  ifThere: number,
  byChance: number,
): Found {
  const isStrong = band.intensity === 'vs' && band.low_percm > 1600;
  const beside = isStrong
    ? mostProminent(
        maximaWithin(context.maxima, low - BEYOND_PERCM, high + BEYOND_PERCM).filter((one) =>
          tallEnough(context, one, least),
        ),
      )
    : undefined;
  if (beside !== undefined)
    return {
      verdict: 'cannotTell',
      probability: 0.35,
      proves: 'little',
      evidence: evidenceOf(context, band.vibration, beside),
      reasons: [
        `A strong band stands at ${at(beside.position_percm)}, beside the usual window of ${band.low_percm} to ${at(band.high_percm)}: ` +
          'the group is of another class, or the wavenumbers of the record are off.',
      ],
    };
  const blind = leastShare(context.view) > 0.5 * LEAST_SHARE[band.intensity];
  const faint = maximaWithin(context.maxima, low, high).some((one) =>
    tallEnough(context, one, 0.35 * least),
  );
  const mayBeFaint =
    faint || blind || band.duty === 'may' || band.intensity === 'v' || band.intensity === 'w';
  const probability = moved(PRIOR, (1 - ifThere + (blind ? 0.3 : 0)) / (1 - byChance));
  return {
    verdict: mayBeFaint ? 'cannotTell' : verdictAt(probability),
    probability,
    proves: 'much',
    reasons: [
      `No band of at least ${shareText(least)} stands between ${band.low_percm} and ${at(band.high_percm)}.` +
        (blind ? ' The noise would hide a usual one.' : faint ? ' A smaller one does.' : ''),
    ],
  };
}

function tallEnough({ view }: TraceContext, one: Maximum, least: number): boolean {
  return one.height >= least * view.tallest && one.prominence >= 0.3 * least * view.tallest;
}

/** The most prominent, those in the core before those at the edge. */
function bestOf(inside: readonly Maximum[], band: IrBand): Maximum | undefined {
  const worth = ({ position_percm: p, prominence }: Maximum): number =>
    prominence * (p >= band.coreLow_percm && p <= band.coreHigh_percm ? 2 : 1);
  return [...inside].sort((a, b) => worth(b) - worth(a))[0];
}

/** Bands of any organic compound as tall as that, per cm⁻¹: few above 1500, many below. */
const CROWD: readonly (readonly [low: number, high: number, perCm: number])[] = [
  [400, 1500, 0.011],
  [1500, 1640, 0.006],
  [1640, 1800, 0.0016],
  [1800, 2700, 0.0002],
  [2700, 2840, 0.0012],
  [2840, 3000, 0.012],
  [3000, 3110, 0.005],
  [3110, 4000, 0.0009],
];

/**
 * Chance that a band as tall as that lies in the window without this group: Poisson, at the rate
 * of this trace around the window where it has enough bands, and of any trace where it has none.
 */
export function chanceOfAny(
  context: TraceContext,
  low: number,
  high: number,
  least: number,
): number {
  const middle = (low + high) / 2;
  const usual = CROWD.find(([from, to]) => middle >= from && middle < to)?.[2] ?? 0.005;
  const reach = 120;
  const around = context.maxima.filter(
    (one) =>
      tallEnough(context, one, least) &&
      ((one.position_percm > low - reach && one.position_percm < low) ||
        (one.position_percm > high && one.position_percm < high + reach)),
  ).length;
  const scarce = Math.min(1, 0.1 / Math.max(least, 0.01)) ** 0.5;
  // The usual rate weighs as much as 240 cm⁻¹ of this trace.
  const rate = (usual * scarce * 240 + around) / (240 + 2 * reach);
  return Math.min(0.97, Math.max(0.02, 1 - Math.exp(-rate * (high - low))));
}
