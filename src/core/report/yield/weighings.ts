import type { Enactment } from '../../enact/enactment.ts';
import type { Experiment } from '../../experiment/step.ts';
import type { Posting } from '../../ledger/posting.ts';
import type { BenchRun, Reading, RunNet } from '../../record/run.ts';
import { vesselOf } from '../common/name.ts';

/**
 * - isolated: where the product ends up
 * - crop: the same product in another vessel at the end
 * - earlier: weighed again later in the same vessel, dried on in between
 * - crude: weighed, then worked on and weighed again elsewhere
 * - intermediate: weighed, then used up in a later reaction
 */
export type WeighingKind = 'isolated' | 'crop' | 'earlier' | 'crude' | 'intermediate';

/** One product on a balance, at one step. */
export interface ProductWeighing {
  readonly step: string;
  readonly vessel: string;
  readonly substance: string;
  readonly kind: WeighingKind;
  /** Absent: the step asks for a weighing that the record does not have, or has without a tare. */
  readonly net?: RunNet;
  readonly tareMissing?: readonly Reading[];
}

interface Place {
  readonly step: string;
  readonly vessel: string;
  readonly net?: RunNet;
  readonly tareMissing?: readonly Reading[];
}

/**
 * Which product each weighing is of: what the plan has most of in that vessel at that moment (a
 * wet crude must not decide it), or else the bench's own ledger; a declared product before an intermediate before anything else that a declared reaction forms.
 * Weighings of vessels that hold none of these are not about the yield.
 */
export function productWeighings(
  experiment: Experiment,
  plan: Enactment,
  bench: Enactment,
  run: BenchRun,
): ProductWeighing[] {
  const order = new Map(experiment.steps.map((step, i) => [step.id, i]));
  const places = weighedPlaces(bench, run).sort(
    (a, b) => (order.get(a.step) ?? 0) - (order.get(b.step) ?? 0),
  );
  const ranks = productRanks(experiment);
  const planned = contentsBefore(plan.postings, places, order);
  const actual = contentsBefore(bench.postings, places, order);
  const found = places.flatMap((place, i): Found[] => {
    const best = bestProduct(planned[i]!, ranks) ?? bestProduct(actual[i]!, ranks);
    return best === undefined ? [] : [{ ...place, ...best }];
  });
  // The ledger has lost sight of it (an unread sentence): the last net is still somebody's yield.
  const only = experiment.products.length === 1 ? experiment.products[0] : undefined;
  const last = places.findLast((place) => place.net !== undefined);
  if (found.length === 0 && only !== undefined && last !== undefined) {
    found.push({ ...last, substance: only.substance.id });
  }
  return classify(found, plan.postings, order);
}

function weighedPlaces(enactment: Enactment, run: BenchRun): Place[] {
  const places = new Map<string, Place>();
  for (const { step, vessel, observation } of enactment.observations) {
    const weighs = observation === 'net' || observation === 'gross';
    if (weighs) places.set(`${step}|${vessel}`, { step, vessel });
  }
  for (const { step, vessel, gross } of run.tareMissing) {
    places.set(`${step}|${vessel}`, { step, vessel, tareMissing: gross });
  }
  for (const net of run.nets) {
    places.set(`${net.step}|${net.vessel}`, { step: net.step, vessel: net.vessel, net });
  }
  return [...places.values()];
}

/** 0 for declared products, 1 for intermediates, 2 for organic by-products; water and the like count for nothing. */
function productRanks(experiment: Experiment): ReadonlyMap<string, number> {
  const ranks = new Map<string, number>();
  const consumed = new Set(
    experiment.reactions.flatMap((each) => each.reactants.map((term) => term.substance.id)),
  );
  for (const reaction of experiment.reactions) {
    for (const { substance } of reaction.products) {
      const isolable = substance.phase === 'organic' || consumed.has(substance.id);
      if (isolable) ranks.set(substance.id, consumed.has(substance.id) ? 1 : 2);
    }
  }
  for (const { substance } of experiment.products) ranks.set(substance.id, 0);
  return ranks;
}

type Contents = ReadonlyMap<string, number>;

/** Mass by substance in each place's vessel, before the postings of its step. One pass. */
function contentsBefore(
  postings: readonly Posting[],
  places: readonly Place[],
  order: ReadonlyMap<string, number>,
): Contents[] {
  const vessels = new Map<string, Map<string, number>>();
  const taken: Contents[] = [];
  const takeUpTo = (place: number): void => {
    while (taken.length < places.length) {
      const next = places[taken.length]!;
      if ((order.get(next.step) ?? Infinity) > place) return;
      taken.push(new Map(vessels.get(next.vessel)));
    }
  };
  for (const posting of postings) {
    takeUpTo(order.get(posting.step) ?? -1);
    post(vessels, posting.from, posting.substance, -posting.mass_g);
    post(vessels, posting.to, posting.substance, posting.mass_g);
  }
  takeUpTo(Infinity);
  return taken;
}

function post(
  vessels: Map<string, Map<string, number>>,
  account: string,
  substance: string,
  mass_g: number,
): void {
  const vessel = vesselOf(account);
  if (vessel === undefined) return;
  let held = vessels.get(vessel);
  if (held === undefined) {
    held = new Map();
    vessels.set(vessel, held);
  }
  held.set(substance, (held.get(substance) ?? 0) + mass_g);
}

const TRACE_g = 1e-6;

function bestProduct(
  contents: Contents,
  ranks: ReadonlyMap<string, number>,
): { readonly substance: string } | undefined {
  let best: { substance: string; mass_g: number; rank: number } | undefined;
  for (const [substance, mass_g] of contents) {
    const rank = ranks.get(substance);
    if (rank === undefined || mass_g < TRACE_g) continue;
    const better =
      best === undefined || rank < best.rank || (rank === best.rank && mass_g > best.mass_g);
    if (better) best = { substance, mass_g, rank };
  }
  return best === undefined ? undefined : { substance: best.substance };
}

type Found = Omit<ProductWeighing, 'kind'>;

function classify(
  found: readonly Found[],
  postings: readonly Posting[],
  order: ReadonlyMap<string, number>,
): ProductWeighing[] {
  const ended = new Set<string>();
  const kinds = found.map((weighing, i): WeighingKind => {
    const later = found
      .slice(i + 1)
      .filter((each) => each.substance === weighing.substance && each.step !== weighing.step);
    const fate = fateAfter(weighing, postings, order);
    const again = later.some((each) => each.vessel === weighing.vessel && each.net !== undefined);
    if (fate === 'stays' && again) return 'earlier';
    if (later.length > 0 && fate === 'moved on') return 'crude';
    if (fate === 'used up' || usedUpElsewhere(weighing, postings, order)) return 'intermediate';
    const kind = ended.has(weighing.substance) ? 'crop' : 'isolated';
    if (weighing.net !== undefined) ended.add(weighing.substance);
    return kind;
  });
  return found.map((weighing, i) => ({ ...weighing, kind: kinds[i]! }));
}

/** Whether more than half of what was weighed leaves its vessel later, and whether for a reaction. */
function fateAfter(
  { step, vessel, substance }: Found,
  postings: readonly Posting[],
  order: ReadonlyMap<string, number>,
): 'stays' | 'moved on' | 'used up' {
  const at = order.get(step) ?? 0;
  let held_g = 0;
  let moved_g = 0;
  let reacted_g = 0;
  for (const posting of postings) {
    if (posting.substance !== substance) continue;
    const leaves = vesselOf(posting.from) === vessel;
    const arrives = vesselOf(posting.to) === vessel;
    if ((order.get(posting.step) ?? 0) <= at) {
      held_g += (arrives ? posting.mass_g : 0) - (leaves ? posting.mass_g : 0);
    } else if (leaves && !arrives) {
      moved_g += posting.mass_g;
      if (posting.to.startsWith('reaction/')) reacted_g += posting.mass_g;
    }
  }
  if (held_g <= TRACE_g) return 'stays';
  if (reacted_g > held_g / 2) return 'used up';
  return moved_g > held_g / 2 ? 'moved on' : 'stays';
}

/** It was carried to another vessel and reacted there. */
function usedUpElsewhere(
  weighing: Found,
  postings: readonly Posting[],
  order: ReadonlyMap<string, number>,
): boolean {
  const at = order.get(weighing.step) ?? 0;
  return (
    fateAfter(weighing, postings, order) === 'moved on' &&
    postings.some(
      (posting) =>
        posting.substance === weighing.substance &&
        posting.to.startsWith('reaction/') &&
        (order.get(posting.step) ?? 0) > at,
    )
  );
}
