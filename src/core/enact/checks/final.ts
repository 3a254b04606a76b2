import type { Run } from '../run.ts';
import { nameOf, sayAt } from '../run.ts';
import { RULES } from '../rules.ts';
import { figure, listed } from '../say.ts';
import type { Vessel } from '../vessel.ts';
import { NOTHING, contentsMass_g, quantityIn } from '../vessel.ts';
import { seen } from './product.ts';

/** What is said when all sentences have been enacted. */
export function checkFinal(run: Run): void {
  if (run.compiled.lines.length === 0) return;
  checkReactions(run);
  const left = checkProducts(run);
  checkLeftovers(run, left);
}

/** Declared reactions that never found their reactants together. */
function checkReactions(run: Run): void {
  const { declared, lastCharge } = run.compiled;
  declared.forEach((reaction, n) => {
    if (run.everRan[n]) return;
    const had = (i: number) =>
      seen(run, i) > NOTHING || run.vessels.some((v) => v.supplies.some((s) => s.substance === i));
    const reactants = reaction.reactants.map((side) => side.substance);
    const missing = reactants.filter((i) => !had(i));
    const names = listed(missing.map((i) => nameOf(run, i)));
    const never = missing.some((i) => lastCharge[i]! < 0);
    const why = !reaction.runnable
      ? 'one of its reactants has no formula'
      : missing.length === 0
        ? 'its reactants never share a vessel before a wait or a separation'
        : never
          ? `${names} ${missing.length > 1 ? 'are' : 'is'} never charged or formed`
          : `${names} ${missing.length > 1 ? 'are' : 'is'} charged without a figure`;
    sayAt(
      run,
      run.compiled.lines[run.compiled.lines.length - 1]!.stepId,
      reaction.span,
      'reaction-never-ran',
      'warning',
      `${reaction.id} never runs: ${why}.`,
      'Compare the names in the equation with those in the procedure; "The reaction takes place." makes it run.',
    );
  });
}

/**
 * A product that is there but is never weighed, and a good part of it in a vessel that is left
 * standing. Returns the vessels about which enough has been said.
 */
function checkProducts(run: Run): ReadonlySet<Vessel> {
  const told = new Set<Vessel>();
  const last = run.compiled.lines[run.compiled.lines.length - 1]!;
  const weighed = run.vessels.some((v) => v.weighed);
  for (const product of run.compiled.experiment.products) {
    const i = run.compiled.shelf.byId.get(product.substance.id);
    if (i === undefined || !(seen(run, i) > NOTHING)) continue;
    if (!weighed) {
      const message = `${product.name} is made but never weighed.`;
      const hint =
        'Weigh it ("Weigh the solid."), with the vessel tared, or no yield can be reported.';
      sayAt(run, last.stepId, last.span, 'product-not-weighed', 'warning', message, hint);
      continue;
    }
    for (const v of run.vessels) {
      const share = quantityIn(v, i) / seen(run, i);
      if (v.weighed || share <= RULES.productShare) continue;
      told.add(v);
      sayAt(
        run,
        last.stepId,
        last.span,
        'product-discarded',
        'warning',
        `At the end ${figure(100 * share)} % of the ${product.name} is left in the ${v.plan.name}, not weighed.`,
        'Check which layer or which part was kept, or work up what is left.',
      );
    }
  }
  return told;
}

/** Matter that is still in vessels: nobody has said where it goes. One word for all of them. */
function checkLeftovers(run: Run, told: ReadonlySet<Vessel>): void {
  const last = run.compiled.lines[run.compiled.lines.length - 1]!;
  const left = run.vessels.flatMap((v) => {
    const mass_g = contentsMass_g(run.compiled.shelf, v);
    if (v.weighed || told.has(v) || mass_g <= RULES.leftover_g) return [];
    return [{ name: v.plan.name, text: `the ${v.plan.name} (${figure(mass_g)} g)` }];
  });
  if (left.length === 0) return;
  sayAt(
    run,
    last.stepId,
    last.span,
    'undisposed',
    'note',
    `At the end there is still something in ${listed(left.map((one) => one.text))}.`,
    `Say where it goes ("Discard the ${left[0]!.name} to the ... waste."), so that the waste sheet counts it.`,
  );
}
