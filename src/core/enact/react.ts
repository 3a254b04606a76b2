import type { Move, ReactTrigger } from '../experiment/move.ts';
import type { ReactionRun } from './enactment.ts';
import type { ReactionPlan } from './reaction-plan.ts';
import type { Run } from './run.ts';
import { ASSUMED, BASES, PLANNED, post, vesselOf } from './run.ts';
import { settle } from './settle.ts';
import type { SidePlan } from './side-reactions.ts';
import { clearRan, drawSupply } from './stock.ts';
import { limitingChanged } from './checks/limiting.ts';
import type { Supply, Vessel } from './vessel.ts';
import { NOTHING, SOLID, VAPOUR, quantityIn } from './vessel.ts';

type ReactMove = Extract<Move, { kind: 'react' }>;

/** At which moves declared reactions may run, and which fast side reactions go with them. */
const AT: Record<
  ReactTrigger,
  { readonly declared: boolean; readonly side: readonly SidePlan['trigger'][] }
> = {
  wait: { declared: true, side: ['contact'] },
  separation: { declared: true, side: ['contact'] },
  contact: { declared: false, side: ['contact'] },
  activation: { declared: false, side: ['contact', 'activation'] },
  quench: { declared: true, side: ['contact', 'quench'] },
  stated: { declared: true, side: ['contact'] },
};

/** Side reactions may feed one another; more rounds than this are not looked for. */
const SIDE_ROUNDS = 5;

/** Declared reactions in the order written, then fast side reactions; then gases leave. */
export function react(run: Run, move: ReactMove): void {
  const v = vesselOf(run, move.vessel);
  settle(run, v);
  const at = AT[move.trigger];
  if (at.declared) runDeclared(run, v, move);
  runSide(run, v, at.side, move.trigger);
  let waited = false;
  for (let i = 0; i < v.gasWaits.length; i++)
    if (v.gasWaits[i]) {
      v.gasWaits[i] = 0;
      waited = true;
    }
  if (waited) v.dirty = true;
  settle(run, v);
}

function runDeclared(run: Run, v: Vessel, move: ReactMove): void {
  const { declared } = run.compiled;
  const wanted = (n: number) => move.reaction === undefined || declared[n]!.id === move.reaction;
  const ready: number[] = [];
  for (let n = 0; n < declared.length; n++)
    if (wanted(n) && !v.ran[n] && allPresent(v, declared[n]!)) ready.push(n);
  const conversion = (n: number) => move.conversion ?? declared[n]!.conversion;
  // Two ways for the same matter to go, each in part: both are shares of what stood ready.
  if (ready.length > 1 && ready.every((n) => conversion(n) < 1)) {
    const before = new Float64Array(run.free.length);
    for (let i = 0; i < before.length; i++) before[i] = quantityIn(v, i);
    for (const n of ready) runOne(run, v, declared[n]!, n, conversion(n), before);
  }
  for (let n = 0; n < declared.length; n++)
    if (wanted(n) && !v.ran[n] && allPresent(v, declared[n]!))
      runOne(run, v, declared[n]!, n, conversion(n), undefined);
}

function allPresent(v: Vessel, reaction: ReactionPlan): boolean {
  if (!reaction.runnable) return false;
  const agents = reaction.agents ?? [];
  const delivers = (i: number) => quantityIn(v, i) > NOTHING || supplyOf(v, i) !== undefined;
  if (agents.length > 0 && !agents.some(delivers)) return false;
  let finite = false;
  for (const { substance } of reaction.reactants) {
    const there = quantityIn(v, substance) > NOTHING;
    if (!there && supplyOf(v, substance) === undefined) return false;
    finite ||= supplyOf(v, substance) === undefined;
  }
  return finite;
}

function supplyOf(v: Vessel, substance: number): Supply | undefined {
  for (const supply of v.supplies) if (supply.substance === substance) return supply;
  return undefined;
}

function runOne(
  run: Run,
  v: Vessel,
  reaction: ReactionPlan,
  n: number,
  conversion: number,
  before: Float64Array | undefined,
): void {
  const found = enactReaction(run, v, reaction, conversion, before, (i) => supplyOf(v, i));
  if (found === undefined) return;
  // What is left unreacted stays so until more of a reactant comes.
  v.ran[n] = 1;
  limitingChanged(run, reaction, found, run.everRan[n] === 0);
  run.everRan[n] = 1;
}

function runSide(
  run: Run,
  v: Vessel,
  triggers: readonly SidePlan['trigger'][],
  trigger: ReactTrigger,
): void {
  const { side } = run.compiled;
  for (let round = 0; round < SIDE_ROUNDS; round++) {
    let ran = false;
    for (const reaction of side) {
      if (!triggers.includes(reaction.trigger) || yields(run, v, reaction, trigger)) continue;
      const supply = (i: number) => {
        const found = supplyOf(v, i);
        return found?.sideLine === run.lineNumber ? found : undefined;
      };
      if (!sidePresent(v, reaction, supply)) continue;
      const found = enactReaction(run, v, reaction, 1, undefined, supply);
      if (found === undefined) continue;
      ran = true;
      for (const { substance, coefficient } of reaction.reactants)
        run.sideUsed[substance]! += coefficient * found.extent_mmol;
    }
    if (!ran) return;
  }
}

function sidePresent(
  v: Vessel,
  reaction: ReactionPlan,
  supply: (i: number) => Supply | undefined,
): boolean {
  let finite = false;
  for (const { substance } of reaction.reactants) {
    const there = quantityIn(v, substance) > NOTHING;
    const standing = supply(substance) !== undefined;
    if (!there && !standing) return false;
    finite ||= !standing;
  }
  return finite;
}

/** Two reactants of a declared reaction are left to it while it can run, or is yet to. */
function yields(run: Run, v: Vessel, reaction: SidePlan, trigger: ReactTrigger): boolean {
  const waiting = (n: number) => allPresent(v, run.compiled.declared[n]!);
  if (trigger === 'contact' && reaction.sharesWith.some(waiting)) return true;
  for (const n of reaction.yieldsTo) {
    if (allPresent(v, run.compiled.declared[n]!)) return true;
    if (trigger !== 'quench' && run.everRan[n] === 0) return true;
  }
  return false;
}

/**
 * Runs one reaction as far as its limiting reagent goes, through the turntable `reaction/…`.
 * `before` gives the amounts that the extent is a share of, where several reactions share them.
 */
function enactReaction(
  run: Run,
  v: Vessel,
  reaction: ReactionPlan,
  conversion: number,
  before: Float64Array | undefined,
  supply: (i: number) => Supply | undefined,
): ReactionRun | undefined {
  const { shelf } = run.compiled;
  let extent = Infinity;
  let most = Infinity;
  let limiting = -1;
  const available: { substance: string; coefficient: number; amount_mmol: number }[] = [];
  for (const { substance, coefficient } of reaction.reactants) {
    const standing = supply(substance) !== undefined;
    const there = standing ? Infinity : (before?.[substance] ?? quantityIn(v, substance));
    const id = shelf.substances[substance]!.id;
    available.push({ substance: id, coefficient, amount_mmol: there });
    // Reactants in exact proportion differ by rounding; the first of them is named.
    if (there / coefficient < extent * (1 - 1e-12)) {
      extent = there / coefficient;
      limiting = substance;
    }
    if (!standing) most = Math.min(most, quantityIn(v, substance) / coefficient);
  }
  extent = Math.min(extent * conversion, most);
  if (limiting < 0 || !(extent > NOTHING)) return undefined;
  for (const { substance, coefficient } of reaction.reactants) {
    const standing = supply(substance);
    const shortage = extent * coefficient - quantityIn(v, substance);
    if (standing !== undefined && shortage > 0) drawSupply(run, v, standing, shortage);
  }
  settle(run, v);
  const basis = basisOf(v, reaction);
  for (const { substance, coefficient } of reaction.reactants)
    consume(run, v, reaction.account, substance, extent * coefficient);
  const formed = form(run, v, reaction, extent, basis);
  const found: ReactionRun = {
    step: run.line.stepId,
    reaction: reaction.id,
    kind: reaction.kind,
    vessel: v.plan.id,
    available,
    formed,
    extent_mmol: extent,
    limiting: shelf.substances[limiting]!.id,
    basis: BASES[basis]!,
  };
  run.reactions.push(found);
  settle(run, v);
  return found;
}

/** A product is known no better than the least known reactant, and at best as a plan. */
function basisOf(v: Vessel, reaction: ReactionPlan): number {
  if (reaction.kind === 'side') return ASSUMED;
  let basis = PLANNED;
  for (const { substance } of reaction.reactants) basis = Math.max(basis, v.basis[substance]!);
  return basis;
}

/** Takes a reactant out of every phase that it stands in, in proportion; the last trace with it. */
function consume(run: Run, v: Vessel, account: string, i: number, quantity: number): void {
  const there = quantityIn(v, i);
  const all = there - quantity < NOTHING;
  for (let phase = SOLID; phase <= VAPOUR; phase++) {
    const held = v.held[phase]![i]!;
    if (held <= 0) continue;
    const taken = all ? held : (held * quantity) / there;
    post(run, v.plan.accounts[phase]!, account, i, taken, v.basis[i]!);
    v.held[phase]![i] = all ? 0 : held - taken;
  }
  v.pinned[i] = Math.min(v.pinned[i]!, v.held[SOLID]![i]!);
}

function form(
  run: Run,
  v: Vessel,
  reaction: ReactionPlan,
  extent: number,
  basis: number,
): { substance: string; coefficient: number; amount_mmol: number }[] {
  const { shelf } = run.compiled;
  const unwritten = reaction.unwritten;
  if (unwritten !== undefined) {
    const [from, to] = unwritten.comes
      ? [unwritten.account, reaction.account]
      : [reaction.account, unwritten.account];
    post(run, from, to, unwritten.substance, extent, ASSUMED);
  }
  v.dirty = true;
  v.sorted = false;
  return reaction.products.map(({ substance, coefficient }) => {
    const quantity = extent * coefficient;
    run.formed[substance]! += quantity;
    v.incoming.push({ from: reaction.account, substance, quantity, basis });
    clearRan(run, v, substance);
    return { substance: shelf.substances[substance]!.id, coefficient, amount_mmol: quantity };
  });
}
