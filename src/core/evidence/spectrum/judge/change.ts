import type { StructureFacts } from '../../structure.ts';
import { bandsFor, vibrationKind } from './bands.ts';
import type { TraceContext } from './context.ts';
import { at, shareText } from './evidence.ts';
import type { GroupJudgement, JudgedGroup, Verdict } from './group-judgement.ts';
import { JUDGED_GROUPS } from './group-judgement.ts';
import { GROUP_WORDS, aGroup } from './group-words.ts';
import type { Maximum } from './maxima.ts';
import { leastShare, maximaWithin, mostProminent } from './maxima.ts';
import { holds } from './structure-groups.ts';

/** A change that the reaction should make, looked for in the product's trace. */
export interface ChangeJudgement {
  readonly group: JudgedGroup;
  readonly kind: 'gone' | 'new';
  /** `present`: the change is seen. `absent`: it is not. */
  readonly verdict: Verdict;
  readonly probability: number;
  readonly says: string;
  readonly limits: string;
}

/** Usual height of the group's band in a pure sample, beside its tallest band; common practice. */
const USUAL_SHARE: Partial<Record<JudgedGroup, number>> = {
  oh: 0.5,
  carbonyl: 0.85,
  nitrile: 0.2,
  nitro: 0.8,
  nh: 0.2,
  'alkyne-h': 0.4,
  'aldehyde-ch': 0.2,
};

/** Where more than this share of the starting material would not show, nothing is said of it. */
const MOST_HIDDEN = 0.15;

/** Groups whose coming and going a trace can show at all. */
const TELLING: readonly JudgedGroup[] = JUDGED_GROUPS.filter(
  (group) => !['c-o', 'c-cl', 'alkene', 'aryl'].includes(group),
);

export function judgeChange(
  context: TraceContext,
  product: StructureFacts,
  startingMaterials: readonly StructureFacts[],
  groups: readonly GroupJudgement[],
): readonly ChangeJudgement[] {
  return TELLING.flatMap((group) => {
    const before = startingMaterials.some((facts) => holds(facts, group));
    const after = holds(product, group);
    if (before === after || startingMaterials.length === 0) return [];
    const judged = groups.find((one) => one.group === group)!;
    if (after) return [newOf(judged)];
    const left = leftOver(context, product, startingMaterials, group);
    return [goneOf(context, judged, left)];
  });
}

/** Vibrations by which a group is looked for where the starting material should show it. */
const MARKS: Partial<Record<JudgedGroup, string>> = {
  carbonyl: 'C=O stretch',
  nitrile: 'C≡N stretch',
  nitro: 'NO₂ stretch',
};

/**
 * A band, however small, in a window of the starting material's group that is clear of the
 * product's: a tenth of it shows little and is not nothing.
 */
function leftOver(
  context: TraceContext,
  product: StructureFacts,
  startingMaterials: readonly StructureFacts[],
  group: JudgedGroup,
): Maximum | undefined {
  const mark = MARKS[group];
  if (mark === undefined) return undefined;
  const { view } = context;
  const least = Math.max(0.02, leastShare(view)) * view.tallest;
  const own = bandsFor(product, context.state).filter(({ band }) => band.duty === 'must');
  const windows = startingMaterials
    .flatMap((facts) => bandsFor(facts, context.state))
    .filter(({ band }) => vibrationKind(band) === mark)
    .map(
      ({ band }) =>
        [band.low_percm - view.positionU_percm, band.high_percm + view.positionU_percm] as const,
    )
    .filter(
      ([low, high]) => !own.some(({ band }) => band.low_percm < high && band.high_percm > low),
    );
  return mostProminent(
    windows
      .flatMap(([low, high]) => maximaWithin(context.maxima, low, high))
      .filter(({ prominence }) => prominence > least),
  );
}

function goneOf(
  context: TraceContext,
  judged: GroupJudgement,
  left: Maximum | undefined,
): ChangeJudgement {
  const words = GROUP_WORDS[judged.group];
  const least = visibleShare(context, judged.group);
  const percent = `about ${Math.max(3, Math.ceil(least * 100))} %`;
  const verdict: Verdict =
    judged.verdict === 'absent' && left === undefined
      ? least > MOST_HIDDEN
        ? 'cannotTell'
        : 'present'
      : judged.verdict === 'present'
        ? 'absent'
        : 'cannotTell';
  const says: Readonly<Record<Verdict, string>> = {
    present: `The ${words} of the starting material is not seen. Less than ${percent} of it would not show.`,
    absent: `${aGroup(judged.group, true)} is still there, which the product should not have.`,
    cannotTell:
      left === undefined
        ? `Whether the ${words} of the starting material is gone cannot be told from this trace.`
        : `A band at ${at(left.position_percm)}, ${shareText(left.prominence / context.view.tallest)}, is where the ${words} of the starting material absorbs: some of it may be left.`,
  };
  return {
    group: judged.group,
    kind: 'gone',
    verdict,
    probability: 1 - judged.probability,
    says: says[verdict],
    limits: `A band that is not seen does not prove that nothing is left. ${judged.limits}`,
  };
}

/** Share of the starting material whose band just stands out: the noise over the usual height. */
function visibleShare({ view }: TraceContext, group: JudgedGroup): number {
  return Math.max(0.02, leastShare(view)) / (USUAL_SHARE[group] ?? 0.2);
}

function newOf(judged: GroupJudgement): ChangeJudgement {
  const words = GROUP_WORDS[judged.group];
  const says: Readonly<Record<Verdict, string>> = {
    present: `A new ${words} is seen, as the product should have.`,
    absent: `The ${words} that the product should have is not seen.`,
    cannotTell: `Whether the new ${words} is there cannot be told from this trace.`,
  };
  return {
    group: judged.group,
    kind: 'new',
    verdict: judged.verdict,
    probability: judged.probability,
    says: says[judged.verdict],
    limits: judged.limits,
  };
}
