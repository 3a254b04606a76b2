import { NOTHING } from '../vessel.ts';
import type { Run } from '../run.ts';
import { nameOf, sayOnce } from '../run.ts';
import { listed } from '../say.ts';
import { seen } from './product.ts';

/**
 * An organic layer is washed with a carbonate, and the ledger has all acid in the aqueous layer: no
 * gas is counted. A real layer still carries some, dissolved or as droplets (common practice).
 */
export function checkCarbonateWash(run: Run): void {
  const { verb, moves, stepId } = run.line;
  if (verb !== 'washLayer' && verb !== 'extract') return;
  const { shelf, side, uses } = run.compiled;
  for (const move of moves) {
    if (move.kind !== 'move' || move.from !== 'stock' || move.to.kind !== 'vessel') continue;
    const { vessel } = move.to;
    const key = `carbonate|${vessel}`;
    if (run.gases.some((gas) => gas.step === stepId)) run.said.add(key);
    const brought = new Set(uses.get(move.use.id)?.components.map((part) => part.substance));
    const acids = new Set<number>();
    let gas = -1;
    for (const { reactants, products } of side) {
      // The gas of a carbonate holds carbon; hydrogen from what a quench has long destroyed does not.
      const made = products.find(
        ({ substance }) =>
          shelf.gaseous[substance] && shelf.substances[substance]!.composition?.counts.has('C'),
      );
      const met = reactants.filter((one) => !brought.has(one.substance));
      if (made === undefined || met.length === reactants.length || met.length === 0) continue;
      if (!met.every((one) => seen(run, one.substance) > NOTHING)) continue;
      for (const one of met) acids.add(one.substance);
      gas = made.substance;
    }
    if (gas < 0) continue;
    // A long list says no more than the word.
    const acid = acids.size > 2 ? 'some acid' : listed([...acids].map((i) => nameOf(run, i)));
    sayOnce(
      run,
      key,
      'gas-not-counted',
      'note',
      `The layer that is washed here may still carry ${acid}, which the ledger counts elsewhere: ${nameOf(run, gas)} can come off.`,
      "Add the wash slowly, swirl the open funnel until the fizzing stops, then stopper it and vent often. The supplier's safety data sheet and local rules come first.",
    );
  }
}
