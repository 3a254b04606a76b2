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
import { meanHeight } from './view.ts';

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
  // Of its broad band, where no C–H stands: the shelf.
  acid: 0.1,
  carbonyl: 0.85,
  nitrile: 0.2,
  nitro: 0.8,
  nh: 0.2,
  'alkyne-h': 0.4,
  'aldehyde-ch': 0.2,
};

/** Where more than this share of the starting material would not show, nothing is said of it. */
const MOST_HIDDEN = 0.15;
/** The broad band of an acid never shows less than this; the share is said. */
const MOST_HIDDEN_ACID = 0.25;

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
};

/** Groups with one place for all their kinds. */
const PLACES: Partial<Record<JudgedGroup, readonly [low_percm: number, high_percm: number]>> = {
  'aldehyde-ch': [2692, 2752],
  'alkyne-h': [3255, 3345],
  nh: [3150, 3530],
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
): string | undefined {
  const { view } = context;
  const words = GROUP_WORDS[group];
  const bandText = (band: Maximum | undefined) =>
    band &&
    `A band at ${at(band.position_percm)}, ${shareText(band.height / view.tallest)}, ` +
      `is where the ${words} of the starting material absorbs`;
  if (group === 'acid') return shelfRest(context);
  if (group === 'oh') return bandText(broadRest(context));
  if (group === 'nitro') return bandText(pairRest(context));
  const fixed = PLACES[group];
  if (fixed !== undefined)
    return bandText(
      mostProminent(
        maximaWithin(context.maxima, ...fixed).filter(
          ({ prominence }) => prominence > Math.max(0.01, leastShare(view)) * view.tallest,
        ),
      ),
    );
  const mark = MARKS[group];
  if (mark === undefined) return undefined;
  const least = Math.max(0.02, leastShare(view)) * view.tallest;
  const own = bandsFor(product, context.state).filter(({ band }) => band.duty === 'must');
  const all = startingMaterials
    .flatMap((facts) => bandsFor(facts, context.state))
    .filter(({ band }) => vibrationKind(band) === mark)
    .map(
      ({ band }) =>
        [band.low_percm - view.positionU_percm, band.high_percm + view.positionU_percm] as const,
    );
  const windows = all.filter(
    ([low, high]) =>
      !own.some(
        ({ band }) =>
          Math.min(band.high_percm, high) - Math.max(band.low_percm, low) > 0.5 * (high - low),
      ),
  );
  if (all.length > 0 && windows.length === 0)
    return `Bands of the product lie where the ${words} of the starting material absorbs`;
  return bandText(
    mostProminent(
      windows
        .flatMap(([low, high]) => maximaWithin(context.maxima, low, high))
        .filter(({ prominence }) => prominence > least),
    ),
  );
}

/** Both bands of a nitro group: aryl and alkyl. */
const NITRO_PAIRS = [
  [
    [1512, 1546],
    [1334, 1361],
  ],
  [
    [1544, 1563],
    [1362, 1388],
  ],
] as const;

/** The lower band of a nitro group, where the upper one stands too. */
function pairRest({ view, maxima }: TraceContext): Maximum | undefined {
  const least = Math.max(0.02, leastShare(view)) * view.tallest;
  for (const pair of NITRO_PAIRS) {
    const [upper, lower] = pair.map(([low, high]) =>
      mostProminent(maximaWithin(maxima, low, high).filter(({ prominence }) => prominence > least)),
    );
    if (upper !== undefined && lower !== undefined) return lower;
  }
  return undefined;
}

/** Mean height of the shelf, beside the tallest band, from which a rest of an acid is thinkable. */
const SHELF_SHARE = 0.015;

function shelfRest({ view }: TraceContext): string | undefined {
  return meanHeight(view, 2450, 2700) > SHELF_SHARE * view.tallest
    ? 'Between 2450 and 2700 cm⁻¹ the trace does not come back to the baseline, as with an acid'
    : undefined;
}

/** Least height from 3220 to 3420 that a little bonded O–H gives, beside the tallest band. */
const BROAD_SHARE = 0.025;

/** What stands between 3150 and 3560 and is too broad for the overtone of a C=O. */
function broadRest({ view, maxima }: TraceContext): Maximum | undefined {
  const least = Math.max(BROAD_SHARE, leastShare(view)) * view.tallest;
  if (meanHeight(view, 3220, 3420) < least) return undefined;
  return mostProminent(
    maximaWithin(maxima, 3150, 3560).filter(({ width_percm }) => width_percm > 75),
  );
}

function goneOf(
  context: TraceContext,
  judged: GroupJudgement,
  left: string | undefined,
): ChangeJudgement {
  const words = GROUP_WORDS[judged.group];
  const least = visibleShare(context, judged.group);
  const percent = `about ${Math.max(3, Math.ceil(least * 100))} %`;
  const verdict: Verdict =
    judged.verdict === 'absent' && left === undefined
      ? least > (judged.group === 'acid' ? MOST_HIDDEN_ACID : MOST_HIDDEN)
        ? 'cannotTell'
        : 'present'
      : judged.verdict === 'present'
        ? 'absent'
        : 'cannotTell';
  const says: Readonly<Record<Verdict, string>> = {
    present:
      `The ${words} of the starting material is not seen. ` +
      `Less than ${percent} of it would not show.`,
    absent: `${aGroup(judged.group, true)} is still there, which the product should not have.`,
    cannotTell:
      left === undefined
        ? `Whether the ${words} of the starting material is gone cannot be told from this trace.`
        : `${left}: some of it may be left.`,
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
  const least = group === 'oh' ? BROAD_SHARE : 0.02;
  return Math.max(least, leastShare(view)) / (USUAL_SHARE[group] ?? 0.2);
}

function newOf(judged: GroupJudgement): ChangeJudgement {
  const words = GROUP_WORDS[judged.group];
  const [band] = judged.evidence;
  const says: Readonly<Record<Verdict, string>> = {
    present: `A new ${words} is seen, as the product should have.`,
    absent:
      band !== undefined && judged.rather !== undefined
        ? `The band at ${at(band.position_percm)} fits ${judged.rather}. The ${words} that the product should have is not seen beside it.`
        : `The ${words} that the product should have is not seen.`,
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
