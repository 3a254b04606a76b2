import type { Enactment } from '../../enact/enactment.ts';
import type { Experiment } from '../../experiment/step.ts';
import type { BalanceSegment, MaterialBalance, SegmentKind } from '../balance/balance.ts';
import { vesselOf } from '../common/name.ts';
import type { ProductYield, YieldEntry } from '../yield/result.ts';

/** A stage of the way from the theoretical mass to what was weighed. */
export interface CourseStage {
  /** `due`: a weighing that the record does not have, or has without its tare. */
  readonly kind: 'theory' | 'gone' | 'weighed' | 'due';
  /** Of a weighing: which. Of what is gone: where to. */
  readonly weighing?: YieldEntry['kind'];
  readonly gone?: { readonly kind: SegmentKind; readonly where: string };
  readonly step: string | null;
  readonly vessel: string | null;
  /** Further crops lie behind what was isolated before them. */
  readonly start_g: number;
  /** Of the product, by the ledger. */
  readonly product_g: number;
  /** On the balance with it and, by the ledger, not the product. */
  readonly over_g: number;
  /** Gone since the stage before. */
  readonly gone_g: number;
  /** One unit of the last digit that was read; null where nothing was. */
  readonly lastDigit_g: number | null;
}

export interface BalanceCourse {
  readonly theory_g: number;
  readonly stages: readonly CourseStage[];
  /** The ledger has lost sight of the product, so that only what was weighed can be shown. */
  readonly lostSight: boolean;
}

/** Less than this share of the theory is no stage of its own, and no part worth telling apart. */
const LEAST_SHARE = 0.005;

type Stage = Omit<CourseStage, 'start_g' | 'over_g' | 'lastDigit_g' | 'vessel' | 'step'> &
  Partial<CourseStage>;

/**
 * The material balance in the order of the work: theory, what went where, every weighing. What a
 * weighing finds missing stands with that weighing.
 */
export function balanceCourse(
  experiment: Experiment,
  enactment: Enactment,
  balance: MaterialBalance,
  product: ProductYield | undefined,
): BalanceCourse {
  const { theory_g, substance } = balance;
  const least_g = LEAST_SHARE * theory_g;
  const stages: CourseStage[] = [];
  const put = (stage: Stage): void => {
    stages.push({ step: null, vessel: null, start_g: 0, over_g: 0, lastDigit_g: null, ...stage });
  };
  put({ kind: 'theory', product_g: theory_g, gone_g: 0 });
  let left_g = theory_g;
  const gone = (segments: readonly BalanceSegment[], step: string | null): void => {
    for (const { kind, where, mass_g } of segments) {
      left_g -= mass_g;
      put({ kind: 'gone', step, gone: { kind, where }, product_g: left_g, gone_g: mass_g });
    }
  };
  const partings = partingsOf(balance, enactment, least_g);
  gone(partings.get(null) ?? [], null);
  let crops_g = 0;
  for (const step of experiment.steps.map(({ id }) => id)) {
    gone(partings.get(step) ?? [], step);
    const lost_g = lostIn(step, balance);
    left_g -= lost_g;
    for (const entry of (product?.entries ?? []).filter((each) => each.step === step)) {
      const stage = weighedStage(entry, enactment, substance, least_g);
      const before_g = stages.at(-1)!.product_g + stages.at(-1)!.over_g;
      const wet = stage.over_g > 0 || stages.at(-1)!.over_g > 0;
      // What was wet before has lost more than the product: the two weighings tell how much.
      const gone_g = wet ? Math.max(0, before_g - entry.net_g) : lost_g;
      const crop = entry.kind === 'crop';
      put({ ...stage, start_g: crop ? crops_g : 0, gone_g: crop || gone_g < least_g ? 0 : gone_g });
      if (entry.kind === 'isolated' || crop) crops_g += entry.net_g;
    }
    for (const { vessel } of dueAt(step, enactment, product, substance))
      put({ kind: 'due', step, vessel, product_g: left_g, gone_g: 0 });
  }
  const isolated = balance.segments.some(({ kind }) => kind === 'isolated');
  return { theory_g, stages, lostSight: !isolated && (product?.net_g ?? null) !== null };
}

function weighedStage(
  entry: YieldEntry,
  enactment: Enactment,
  substance: string,
  least_g: number,
): Stage & { over_g: number } {
  const held_g = heldAfter(entry.step, entry.vessel, enactment, substance);
  const over_g = entry.net_g - held_g;
  const parted = held_g > 0 && over_g >= least_g;
  return {
    kind: 'weighed',
    weighing: entry.kind,
    step: entry.step,
    vessel: entry.vessel,
    product_g: parted ? held_g : entry.net_g,
    over_g: parted ? over_g : 0,
    gone_g: 0,
    lastDigit_g: entry.lastDigit_g,
  };
}

/** Weighings of a vessel with the product in it that gave no net. */
function dueAt(
  step: string,
  enactment: Enactment,
  product: ProductYield | undefined,
  substance: string,
) {
  return enactment.observations.filter(
    (each) =>
      each.step === step &&
      (each.observation === 'net' || each.observation === 'gross') &&
      each.measured_g === undefined &&
      !product?.entries.some((entry) => entry.step === step && entry.vessel === each.vessel) &&
      heldAfter(step, each.vessel, enactment, substance) > 0,
  );
}

/** What a vessel holds of a substance once a step is done. Postings come in the order of steps. */
function heldAfter(
  step: string,
  vessel: string,
  { postings }: Enactment,
  substance: string,
): number {
  const last = postings.findLastIndex((each) => each.step === step);
  const upTo = last >= 0 ? last : postings.length - 1;
  let held_g = 0;
  postings.forEach((each, i) => {
    if (i > upTo || each.substance !== substance) return;
    if (vesselOf(each.to) === vessel) held_g += each.mass_g;
    if (vesselOf(each.from) === vessel) held_g -= each.mass_g;
  });
  return Math.max(0, held_g);
}

function lostIn(step: string, { segments }: MaterialBalance): number {
  const lost = segments.filter(({ kind, where }) => kind === 'lost' && where === step);
  return lost.reduce((sum, { mass_g }) => sum + mass_g, 0);
}

/** Of the pieces that are stages of their own, the account that the last of them went to. */
const ACCOUNT: Readonly<Partial<Record<SegmentKind, (where: string) => string>>> = {
  waste: (where) => `waste/${where}`,
  air: () => 'air',
  'used on': (where) => `reaction/${where}`,
  left: (where) => `vessel/${where}/`,
};

/** What went elsewhere than to a weighing's loss, by the last step that took it there. */
function partingsOf(
  { segments, substance }: MaterialBalance,
  { postings }: Enactment,
  least_g: number,
): ReadonlyMap<string | null, BalanceSegment[]> {
  const partings = new Map<string | null, BalanceSegment[]>();
  for (const segment of segments) {
    if (segment.kind === 'isolated' || segment.kind === 'lost') continue;
    if (Math.abs(segment.mass_g) < least_g) continue;
    const account = ACCOUNT[segment.kind]?.(segment.where);
    const last = postings.findLast(
      (each) =>
        each.substance === substance && account !== undefined && each.to.startsWith(account),
    );
    const step = last?.step ?? null;
    partings.set(step, [...(partings.get(step) ?? []), segment]);
  }
  return partings;
}
