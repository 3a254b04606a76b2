import type { Run } from '../run.ts';
import { nameOf, say, vesselOf } from '../run.ts';
import { listed } from '../say.ts';
import type { Vessel } from '../vessel.ts';
import { NOTHING, quantityIn } from '../vessel.ts';

/**
 * After a sentence: a wait that is meant for a reaction while reactants are missing. Water, and
 * what a quench is to bring, may come later; a reaction that has begun here is not missed.
 */
export function checkWait(run: Run): void {
  for (const move of run.line.moves) {
    if (move.kind !== 'wait' || !move.forReaction) continue;
    const v = vesselOf(run, move.vessel);
    if (v.unknown || v.ran.includes(1)) continue;
    const ranHere = run.reactions.some((r) => r.vessel === v.plan.id && r.kind === 'declared');
    if (!ranHere) checkReactants(run, v, move.heating === 'reflux');
    return;
  }
}

function checkReactants(run: Run, v: Vessel, reflux: boolean): void {
  const { declared, shelf, quenchBrings, lastCharge } = run.compiled;
  for (let n = 0; n < declared.length; n++) {
    const reaction = declared[n]!;
    if (run.everRan[n] || !reaction.runnable) continue;
    const there = (i: number) =>
      quantityIn(v, i) > NOTHING || v.supplies.some((supply) => supply.substance === i);
    const reactants = reaction.reactants.map((side) => side.substance);
    const needed = reactants.filter((i) => shelf.hint[i] !== 'water');
    if (!needed.some(there)) continue;
    const missing = needed.filter((i) => !there(i) && !quenchBrings[i]);
    if (missing.length === 0) return;
    const later = missing.every((i) => lastCharge[i]! > run.lineNumber);
    say(
      run,
      'wait-without-reactants',
      later && !reflux ? 'note' : 'warning',
      `${reaction.id} cannot run here yet: the ${v.plan.name} holds no ${listed(missing.map((i) => nameOf(run, i)))}.`,
      later
        ? 'If the wait is only to dissolve or to reach a temperature, nothing is wrong.'
        : 'Add it before this sentence, or correct the equation.',
    );
    return;
  }
}
