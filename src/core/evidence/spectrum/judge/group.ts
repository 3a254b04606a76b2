import { acid } from './acid.ts';
import { carbonyl } from './carbonyl-finding.ts';
import type { TraceContext } from './context.ts';
import { isSolid } from './context.ts';
import type { Finding } from './finding.ts';
import type { GroupJudgement, JudgedGroup, Thresholds } from './group-judgement.ts';
import { verdictOf } from './group-judgement.ts';
import { hydroxyl, nh, terminalAlkyne } from './hydroxyl.ts';
import { groupLimits } from './limits.ts';
import { nitro } from './nitro.ts';
import type { Readings } from './readings.ts';
import { aldehydeCh, alkene, aryl, carbonChlorine, carbonOxygen, nitrile } from './small-groups.ts';
import { covers } from './view.ts';

type Stretch = readonly [low_percm: number, high_percm: number];

interface GroupReader {
  readonly read: (readings: Readings) => Finding;
  /** Without these stretches nothing can be said. */
  readonly needs: readonly Stretch[];
  readonly thresholds: Thresholds;
  /** In discs and mulls, where bands tell less, a verdict is worth a little more doubt. */
  readonly inSolids?: Thresholds;
  /** In discs, where moisture keeps the probability of an O–H from falling low. */
  readonly inDiscs?: Thresholds;
}

const NEVER_FIRM = 1.01;

const READERS: Readonly<Record<JudgedGroup, GroupReader>> = {
  oh: {
    read: hydroxyl,
    needs: [[3150, 3640]],
    thresholds: { present: 0.65, absent: 0.15 },
    inSolids: { present: 0.62, absent: 0.2 },
    inDiscs: { present: 0.58, absent: 0.29 },
  },
  acid: {
    read: acid,
    needs: [
      [2450, 3200],
      [1650, 1760],
    ],
    thresholds: { present: 0.75, absent: 0.15 },
  },
  nh: {
    read: nh,
    needs: [[3150, 3500]],
    thresholds: { present: 0.75, absent: 0.08 },
    inSolids: { present: 0.85, absent: 0.08 },
  },
  carbonyl: {
    read: carbonyl,
    needs: [[1640, 1820]],
    thresholds: { present: 0.7, absent: 0.25 },
    inSolids: { present: 0.62, absent: 0.2 },
  },
  nitrile: { read: nitrile, needs: [[2205, 2265]], thresholds: { present: 0.7, absent: 0.2 } },
  nitro: {
    read: nitro,
    needs: [
      [1500, 1570],
      [1310, 1380],
    ],
    thresholds: { present: 0.56, absent: 0.15 },
  },
  'alkyne-h': {
    read: terminalAlkyne,
    needs: [[3250, 3345]],
    thresholds: { present: 0.75, absent: 0.1 },
  },
  'aldehyde-ch': {
    read: aldehydeCh,
    needs: [
      [2690, 2760],
      [1640, 1760],
    ],
    thresholds: { present: 0.72, absent: 0.1 },
  },
  aryl: { read: aryl, needs: [[1470, 1620]], thresholds: { present: 0.75, absent: 0.03 } },
  alkene: { read: alkene, needs: [[1610, 1690]], thresholds: { present: 0.72, absent: 0.03 } },
  'c-o': {
    read: carbonOxygen,
    needs: [[1000, 1300]],
    thresholds: { present: NEVER_FIRM, absent: 0.15 },
  },
  'c-cl': {
    read: carbonChlorine,
    needs: [[600, 800]],
    thresholds: { present: NEVER_FIRM, absent: 0.1 },
  },
};

/** Is a group in the sample, as far as the readings of the trace tell? */
export function judgedFrom(readings: Readings, group: JudgedGroup): GroupJudgement {
  const { context } = readings;
  const { read, needs } = READERS[group];
  const hidden = hiddenReason(context, needs);
  if (hidden !== undefined)
    return {
      group,
      verdict: 'cannotTell',
      probability: 0.5,
      evidence: [],
      reasons: [hidden],
      limits: groupLimits(group, context.state),
    };
  const finding = read(readings);
  const probability = Math.min(0.998, Math.max(0.002, finding.probability));
  return {
    group,
    verdict:
      finding.hidden === undefined
        ? verdictOf(probability, thresholdsOf(group, context))
        : 'cannotTell',
    probability,
    evidence: finding.evidence,
    reasons: finding.hidden === undefined ? finding.reasons : [...finding.reasons, finding.hidden],
    ...(finding.rather !== undefined && { rather: finding.rather }),
    limits: groupLimits(group, context.state),
  };
}

/** The probabilities at which a group is called. */
export function thresholdsOf(group: JudgedGroup, { state }: TraceContext): Thresholds {
  const { thresholds, inSolids, inDiscs } = READERS[group];
  if (state === 'disc' && inDiscs !== undefined) return inDiscs;
  return isSolid(state) ? (inSolids ?? thresholds) : thresholds;
}

/** Why a stretch of the trace carries nothing, if it does not. */
export function hiddenReason(
  { view }: TraceContext,
  needs: readonly Stretch[],
): string | undefined {
  for (const [low, high] of needs) {
    if (!covers(view, low, high, 0.85)) return `The record does not cover ${low} to ${high} cm⁻¹.`;
    if (view.saturated.some(([from, to]) => to - from > 150 && from <= high && to >= low))
      return `The sample let no light through between ${low} and ${high} cm⁻¹.`;
  }
  if (view.tallest < 12 * view.noise || view.tallest < 0.01)
    return 'The bands hardly stand out of the noise.';
  return undefined;
}
