import type { Move, Selector, Whither } from '../experiment/move.ts';
import { settle } from './settle.ts';
import type { Run } from './run.ts';
import { ASSUMED, BASES, MEASURED, post, say, sayOnce, vesselOf } from './run.ts';
import { figure, listed } from './say.ts';
import { productLost } from './checks/product.ts';
import { chooseLayer } from './workup/layers.ts';
import type { Vessel } from './vessel.ts';
import {
  AQUEOUS,
  NOTHING,
  ORGANIC,
  PHASES,
  SOLID,
  VAPOUR,
  contentsMass_g,
  contentsVolume_mL,
  phaseMass_g,
  quantityIn,
  volumeOf_mL,
} from './vessel.ts';

type VesselMove = Extract<Move, { kind: 'move'; from: 'vessel' }>;

/** Which phases are taken, and what share of each. */
interface Take {
  readonly phases: readonly number[];
  readonly share: number;
}

const STANDING: readonly number[] = [SOLID, ORGANIC, AQUEOUS];
const NO_TAKE: Take = { phases: [], share: 0 };

/** Moves what a selector means; every component of a phase goes in proportion. */
export function transfer(run: Run, move: VesselMove): void {
  const source = vesselOf(run, move.vessel);
  const into = move.to.kind === 'vessel' ? vesselOf(run, move.to.vessel) : undefined;
  if (into === source) return;
  settle(run, source);
  source.touchedInLine = run.lineNumber;
  if (into !== undefined) into.touchedInLine = run.lineNumber;
  if (into !== undefined && source.unknown) into.unknown = true;
  if (move.take.kind === 'all' && into !== undefined) moveSupplies(source, into);
  const take = TAKE[move.take.kind](run, source, move.take as never);
  if (take.phases.length === 0 || !(take.share > 0)) return;
  carry(run, source, into, move, take);
}

const TAKE: {
  readonly [K in Selector['kind']]: (
    run: Run,
    v: Vessel,
    take: Extract<Selector, { kind: K }>,
  ) => Take;
} = {
  all: (run, v) => (isEmpty(run, v) ? NO_TAKE : { phases: STANDING, share: 1 }),
  fraction: (run, v, take) => partly(run, v, take.fraction),
  volume: (run, v, take) => {
    const whole = contentsVolume_mL(run.compiled.shelf, v);
    return partly(run, v, whole > 0 ? take.volume_mL / whole : 1);
  },
  mass: (run, v, take) => {
    const whole = contentsMass_g(run.compiled.shelf, v);
    return partly(run, v, whole > 0 ? take.mass_g / whole : 1);
  },
  phase: (run, v, take) => {
    if (take.phase !== 'vapour' && isEmpty(run, v)) return NO_TAKE;
    const wanted =
      take.phase === 'upper' || take.phase === 'lower'
        ? chooseLayer(run, v, take.phase)
        : take.phase === 'liquid'
          ? [ORGANIC, AQUEOUS]
          : [PHASES.indexOf(take.phase)];
    const there = wanted.filter((phase) => phaseMass_g(run.compiled.shelf, v, phase) > NOTHING);
    if (there.length === 0 && !take.ifThere) phaseMissing(run, v, take.phase);
    return { phases: there, share: 1 };
  },
};

function partly(run: Run, v: Vessel, share: number): Take {
  if (isEmpty(run, v)) return NO_TAKE;
  if (share > 1 + 1e-6 && !v.unknown)
    say(
      run,
      'more-than-there-is',
      'warning',
      `More is taken from the ${v.plan.name} than it holds (${figure(share)} times): all of it is taken.`,
      'Correct the amount taken, or what went in.',
    );
  return { phases: STANDING, share: Math.min(1, Math.max(0, share)) };
}

/** Says so where a vessel that should give something is empty. */
function isEmpty(run: Run, v: Vessel): boolean {
  if (contentsMass_g(run.compiled.shelf, v) > NOTHING) return false;
  // An empty still thrown away, a clear solution that leaves nothing on the filter: no mistake
  const { verb, slots } = run.line;
  const expected =
    v.everHeld && (verb === 'discard' || (verb === 'filter' && slots.keep !== 'solid'));
  if (!v.unknown && !expected)
    sayOnce(
      run,
      `empty|${v.plan.id}|${run.line.stepId}`,
      'vessel-empty',
      'warning',
      v.everHeld
        ? `The ${v.plan.name} is empty here: all that it held has been taken away.`
        : `The ${v.plan.name} holds nothing yet.`,
      'Check which vessel is meant, and the order of the sentences.',
    );
  return true;
}

function phaseMissing(run: Run, v: Vessel, phase: string): void {
  // Drying what is dry already, or evaporating again to be sure, is no mistake.
  const { verb, slots } = run.line;
  const toBeSure =
    verb === 'airDry' || slots.manner.some((m) => m === 'again' || m === 'to constant mass');
  if (phase === 'vapour' && toBeSure) return;
  if (v.unknown || run.said.has(`one-layer|${v.plan.id}|${run.line.stepId}`)) return;
  const there = STANDING.filter((p) => phaseMass_g(run.compiled.shelf, v, p) > NOTHING);
  const names = there.map((p) => ['solid', 'an organic liquid', 'an aqueous liquid'][p]!);
  sayOnce(
    run,
    `missing|${v.plan.id}|${phase}|${run.line.stepId}`,
    'phase-missing',
    phase === 'vapour' || verb === 'filter' || verb === 'decant' ? 'note' : 'warning',
    `There is no ${WORD[phase] ?? phase} in the ${v.plan.name}: it holds ${listed(names) || 'nothing'}.`,
    'Check what was added before, or which part is meant.',
  );
}

const WORD: Readonly<Record<string, string>> = {
  organic: 'organic layer',
  aqueous: 'aqueous layer',
  vapour: 'vapour to carry over',
};

function moveSupplies(source: Vessel, into: Vessel): void {
  if (source.supplies.length === 0) return;
  into.supplies.push(...source.supplies);
  source.supplies = [];
}

function carry(
  run: Run,
  source: Vessel,
  into: Vessel | undefined,
  move: VesselMove,
  take: Take,
): void {
  const { shelf } = run.compiled;
  const parted =
    move.take.kind === 'phase' &&
    PHASES.some((_, p) => !take.phases.includes(p) && phaseMass_g(shelf, source, p) > NOTHING);
  const passage = run.policy.trace ? measurePassage(run, source, take) : undefined;
  // A solid put into a liquid may dissolve; crystals that come with their own liquor stay crystals
  const dissolves =
    into !== undefined &&
    into.plan.shape !== 'filter' &&
    !hasLiquid(run, source, take.phases) &&
    hasLiquid(run, into, STANDING);
  if (into !== undefined) prepare(run, source, into, take);
  const to = placeName(move.to);
  let worst = MEASURED;
  for (const phase of take.phases) {
    const held = source.held[phase]!;
    for (let i = 0; i < held.length; i++) {
      const there = held[i]!;
      if (there <= 0) continue;
      const quantity = take.share >= 1 ? there : there * take.share;
      const basis = parted ? ASSUMED : source.basis[i]!;
      worst = Math.max(worst, basis);
      const from = source.plan.accounts[phase]!;
      if (into === undefined) {
        post(run, from, to, i, quantity, basis);
        productLost(run, source, i, quantity, move.to);
      } else hand(run, source, into, phase, i, quantity, basis, dissolves);
      if (phase === SOLID) source.pinned[i]! *= take.share >= 1 ? 0 : 1 - take.share;
      held[i] = take.share >= 1 ? 0 : there - quantity;
    }
  }
  source.closed = false;
  // A vessel that was sorted by a split stays so; otherwise what is left is sorted anew.
  source.dirty = true;
  if (passage === undefined) return;
  run.passages.push({
    step: run.line.stepId,
    from: source.plan.id,
    to: into?.plan.id ?? to,
    label: move.label ?? labelOf(take),
    ...passage,
    basis: BASES[worst]!,
  });
}

/** Gives matter to another vessel: crystals and bound water as the solid that they are. */
function hand(
  run: Run,
  source: Vessel,
  into: Vessel,
  phase: number,
  i: number,
  quantity: number,
  basis: number,
  dissolves: boolean,
): void {
  const from = source.plan.accounts[phase]!;
  let loose = quantity;
  if (phase === SOLID && source.pinned[i]! > 0 && !(dissolves && !isDrying(run, i))) {
    const stays = Math.min(quantity, source.pinned[i]! * (quantity / source.held[SOLID]![i]!));
    loose = quantity - stays;
    post(run, from, into.plan.accounts[SOLID]!, i, stays, basis);
    into.basis[i] = quantityIn(into, i) > NOTHING ? Math.max(into.basis[i]!, basis) : basis;
    into.held[SOLID]![i]! += stays;
    into.pinned[i]! += stays;
  }
  if (loose > 0) into.incoming.push({ from, substance: i, quantity: loose, basis });
}

/** What the newcomers do to what is there: a liquid loosens crystals, a reactant may react anew. */
function prepare(run: Run, source: Vessel, into: Vessel, take: Take): void {
  const { shelf } = run.compiled;
  if (!into.everHeld) into.temperature_C = source.temperature_C;
  const fresh = contentsMass_g(shelf, into) <= NOTHING && into.incoming.length === 0;
  const again = into.ran.includes(1);
  let liquid = false;
  let water = false;
  for (const phase of take.phases) {
    const held = source.held[phase]!;
    for (let i = 0; i < held.length; i++) {
      if (held[i]! <= 0) continue;
      if (phase !== SOLID) {
        liquid = true;
        water ||= shelf.hint[i] === 'water';
      }
      if (again) renew(run, source, into, i);
    }
  }
  if (fresh) into.ran.set(source.ran);
  if (liquid) loosen(run, into, water);
  into.dirty = true;
  into.everHeld = true;
}

/** A reactant that has not been through a reaction comes where that has run: it may run again. */
function renew(run: Run, source: Vessel, into: Vessel, i: number): void {
  run.compiled.declared.forEach((reaction, n) => {
    if (source.ran[n] || !into.ran[n]) return;
    if (reaction.reactants.some((side) => side.substance === i)) into.ran[n] = 0;
  });
}

/**
 * A liquid has come: crystals may dissolve again, and with water a drying agent too. Not on a
 * filter, where a wash runs through.
 */
export function loosen(run: Run, v: Vessel, water: boolean): void {
  if (v.plan.shape === 'filter') return;
  for (let i = 0; i < v.pinned.length; i++) {
    if (v.pinned[i]! <= 0) continue;
    if (!isDrying(run, i) || water) v.pinned[i] = 0;
  }
}

/** A drying agent, or water that one has bound. */
function isDrying(run: Run, i: number): boolean {
  const { shelf } = run.compiled;
  return shelf.hint[i] === 'water' || shelf.capacity_g_g[i]! > 0;
}

function hasLiquid(run: Run, v: Vessel, phases: readonly number[]): boolean {
  return phases.some(
    (phase) =>
      phase !== SOLID && phase !== VAPOUR && phaseMass_g(run.compiled.shelf, v, phase) > NOTHING,
  );
}

function placeName(to: Whither): string {
  if (to.kind === 'air') return 'air';
  return to.kind === 'waste' ? `waste/${to.stream}` : to.vessel;
}

function labelOf(take: Take): string {
  if (take.share < 1) return 'part';
  if (take.phases.length !== 1) return 'contents';
  return ['solid', 'organic layer', 'aqueous layer', 'vapour'][take.phases[0]!]!;
}

function measurePassage(
  run: Run,
  source: Vessel,
  take: Take,
): { mass_g: number; volume_mL?: number } {
  const { shelf } = run.compiled;
  let mass_g = 0;
  let volume_mL: number | undefined = 0;
  for (const phase of take.phases) {
    mass_g += phaseMass_g(shelf, source, phase) * take.share;
    const standing = phase === VAPOUR ? ORGANIC : phase;
    const volume = volumeOf_mL(shelf, source.held[phase]!, standing, take.share);
    volume_mL = volume === undefined || volume_mL === undefined ? undefined : volume_mL + volume;
  }
  // A solid by itself is weighed: nobody can read its volume.
  const fluid = take.phases.some((p) => p !== SOLID && phaseMass_g(shelf, source, p) > NOTHING);
  if (!fluid) return { mass_g };
  return volume_mL === undefined ? { mass_g } : { mass_g, volume_mL };
}
