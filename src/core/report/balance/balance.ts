import type { Enactment } from '../../enact/enactment.ts';
import type { Experiment } from '../../experiment/step.ts';
import { accountKind } from '../../ledger/account.ts';
import type { Account } from '../../ledger/account.ts';
import type { Basis } from '../../ledger/posting.ts';
import { nameOf, restOf, vesselOf } from '../common/name.ts';
import { theoryReport } from '../theory/theory.ts';
import type { Named } from '../theory/theory.ts';

export type SegmentKind =
  'isolated' | 'left' | 'lost' | 'waste' | 'air' | 'used on' | 'not formed' | 'other';

/** A piece of the bar: where a part of the theoretical mass is, or went. */
export interface BalanceSegment {
  readonly kind: SegmentKind;
  /** The vessel, the step of a loss, the waste stream, the reaction. */
  readonly where: string;
  readonly mass_g: number;
  readonly percent: number;
  readonly basis: Basis;
}

/** A weighing on the way, for the marks along the bar. */
export interface BalanceMark {
  readonly step: string;
  readonly vessel: string;
  readonly expected_g: number;
  readonly measured_g: number | null;
}

export interface MaterialBalance extends Named {
  readonly theory_g: number;
  readonly segments: readonly BalanceSegment[];
  readonly marks: readonly BalanceMark[];
  /** Mass in what was weighed last that nothing explains: water, solvent, a missing tare. */
  readonly unexplained_g: number;
  /** What else the ledger has beside the product in what was weighed last, the heaviest first. */
  readonly beside: readonly { readonly name: string; readonly mass_g: number }[];
}

/**
 * Where the theoretical mass of a product went: isolated, left behind, lost at a step, in waste,
 * never formed. The segments add up to the theory. The product is the first declared one, unless
 * another substance is asked for; it counts as isolated where it was weighed last.
 */
export function materialBalance(
  experiment: Experiment,
  enactment: Enactment,
  substance: string | undefined = experiment.products[0]?.substance.id,
): MaterialBalance | undefined {
  const theory = theoryReport(experiment, enactment).products.find(
    (each) => each.substance === substance,
  );
  if (substance === undefined || theory === undefined || theory.mass_g === null) return undefined;
  const theory_g = theory.mass_g;
  const standing = standingOf(enactment, substance);
  const isolatedIn = lastWeighedWith(enactment, standing);
  const segments: BalanceSegment[] = [];
  let formed_g = 0;
  for (const [account, { mass_g, basis }] of standing) {
    formed_g += mass_g;
    if (Math.abs(mass_g) < TRACE_g) continue;
    const { kind, where } = segmentOf(account, isolatedIn);
    segments.push({ kind, where, mass_g, percent: percentOf(mass_g, theory_g), basis });
  }
  const missing_g = theory_g - formed_g;
  if (Math.abs(missing_g) > TRACE_g) {
    const where = theory.reactions.join(', ');
    const percent = percentOf(missing_g, theory_g);
    segments.push({ kind: 'not formed', where, mass_g: missing_g, percent, basis: 'assumed' });
  }
  return {
    substance,
    name: theory.name,
    theory_g,
    segments: merge(segments),
    marks: marksOf(enactment),
    ...besideOf(enactment, substance, isolatedIn),
  };
}

const TRACE_g = 1e-9;

function percentOf(mass_g: number, theory_g: number): number {
  return theory_g > 0 ? (100 * mass_g) / theory_g : 0;
}

interface Standing {
  mass_g: number;
  basis: Basis;
}

/** What stands of a substance on each account, reactions as sources and as what used it on. */
function standingOf(enactment: Enactment, substance: string): Map<Account, Standing> {
  const standing = new Map<Account, Standing>();
  let charged_g = 0;
  const add = (account: Account, mass_g: number, basis: Basis): void => {
    const held = standing.get(account);
    if (held === undefined) standing.set(account, { mass_g, basis });
    else {
      held.mass_g += mass_g;
      held.basis = basis;
    }
  };
  for (const { substance: moved, from, to, mass_g, basis } of enactment.postings) {
    if (moved !== substance) continue;
    if (!isSource(from)) add(from, -mass_g, basis);
    add(to, mass_g, basis);
    if (accountKind(from) === 'stock') charged_g += mass_g;
  }
  takeBack(standing, charged_g);
  return standing;
}

/**
 * What came from the stock and was turned into something else before it was made again (an acid
 * that is parted from others as its salt) is not used on: only what was made counts.
 */
function takeBack(standing: ReadonlyMap<Account, Standing>, charged_g: number): void {
  let rest_g = charged_g;
  for (const [account, held] of standing) {
    if (accountKind(account) !== 'reaction') continue;
    const taken_g = Math.min(held.mass_g, rest_g);
    held.mass_g -= taken_g;
    rest_g -= taken_g;
  }
}

function isSource(account: Account): boolean {
  const kind = accountKind(account);
  return kind === 'reaction' || kind === 'stock' || kind === 'unexplained';
}

/** The vessels that were weighed and that still hold the product at the end. */
function lastWeighedWith(
  enactment: Enactment,
  standing: ReadonlyMap<Account, Standing>,
): ReadonlySet<string> {
  const holding = new Set<string>();
  for (const [account, { mass_g }] of standing) {
    const vessel = vesselOf(account);
    if (vessel !== undefined && mass_g > TRACE_g) holding.add(vessel);
  }
  const weighed = enactment.observations
    .filter((each) => each.observation === 'net' || each.observation === 'gross')
    .map((each) => each.vessel);
  return new Set(weighed.filter((vessel) => holding.has(vessel)));
}

function segmentOf(
  account: Account,
  isolatedIn: ReadonlySet<string>,
): { readonly kind: SegmentKind; readonly where: string } {
  const vessel = vesselOf(account);
  if (vessel !== undefined) {
    return { kind: isolatedIn.has(vessel) ? 'isolated' : 'left', where: vessel };
  }
  const kinds: Partial<Record<ReturnType<typeof accountKind>, SegmentKind>> = {
    loss: 'lost',
    waste: 'waste',
    air: 'air',
    reaction: 'used on',
  };
  return { kind: kinds[accountKind(account)] ?? 'other', where: restOf(account) };
}

const ORDER: Readonly<Record<SegmentKind, number>> = {
  isolated: 0,
  'used on': 1,
  left: 2,
  lost: 3,
  waste: 4,
  air: 5,
  other: 6,
  'not formed': 7,
};

/** The phases of one vessel are one piece; isolated first, losses in the order of the steps. */
function merge(segments: readonly BalanceSegment[]): BalanceSegment[] {
  const pieces = new Map<string, BalanceSegment>();
  for (const segment of segments) {
    const key = `${segment.kind}|${segment.where}`;
    const held = pieces.get(key);
    const mass_g = segment.mass_g + (held?.mass_g ?? 0);
    const percent = segment.percent + (held?.percent ?? 0);
    pieces.set(key, { ...segment, mass_g, percent });
  }
  return [...pieces.values()].sort((a, b) => ORDER[a.kind] - ORDER[b.kind]);
}

function marksOf(enactment: Enactment): BalanceMark[] {
  return enactment.observations
    .filter((each) => each.observation === 'net' || each.observation === 'gross')
    .map(({ step, vessel, expected_g, measured_g }) => ({
      step,
      vessel,
      expected_g,
      measured_g: measured_g ?? null,
    }));
}

/** What stands beside the product in the vessels that were weighed last, at the end. */
function besideOf(
  enactment: Enactment,
  product: string,
  vessels: ReadonlySet<string>,
): Pick<MaterialBalance, 'unexplained_g' | 'beside'> {
  const held = new Map<string, number>();
  const unexplained = new Set<string>();
  const isThere = (account: Account): boolean => vessels.has(vesselOf(account) ?? '');
  for (const { substance, from, to, mass_g } of enactment.postings) {
    if (accountKind(from) === 'unexplained') unexplained.add(substance);
    const change_g = (isThere(to) ? mass_g : 0) - (isThere(from) ? mass_g : 0);
    if (change_g !== 0) held.set(substance, (held.get(substance) ?? 0) + change_g);
  }
  const others = [...held].filter(([id, mass_g]) => id !== product && mass_g > LEAST_BESIDE_g);
  const unexplained_g = others.reduce(
    (sum, [id, mass_g]) => sum + (unexplained.has(id) ? mass_g : 0),
    0,
  );
  const beside = others
    .filter(([id]) => !unexplained.has(id))
    .map(([id, mass_g]) => ({ name: nameOf(enactment, id), mass_g }))
    .sort((a, b) => b.mass_g - a.mass_g);
  return { unexplained_g, beside };
}

/** A tenth of what the balances of a teaching laboratory show. */
const LEAST_BESIDE_g = 1e-4;
