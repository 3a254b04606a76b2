import type { SplitRule } from '../../experiment/move.ts';
import { RULES } from '../rules.ts';
import type { Run } from '../run.ts';
import { nameOf, say } from '../run.ts';
import { figure, listed } from '../say.ts';
import { gather, shift } from '../settle.ts';
import type { Vessel } from '../vessel.ts';
import { AQUEOUS, NOTHING, ORGANIC, SOLID, VAPOUR, quantityIn } from '../vessel.ts';

type Distil = Extract<SplitRule, { rule: 'distil' }>;

/**
 * What comes over: with head temperatures written, whatever boils between them (and below, where
 * no lower one is written); without, the product and all that boils lower. A substance without a
 * boiling point stays, unless it is the one that is meant.
 */
export function distil(run: Run, v: Vessel, rule: Distil): void {
  if (rule.steam) return steamDistil(run, v, rule);
  const meant = targets(run, v, rule.substance);
  const over: number[] = [];
  const between = rule.from_C !== undefined || rule.to_C !== undefined;
  const [low_C, high_C] = between
    ? [rule.from_C ?? -Infinity, rule.to_C ?? rule.from_C ?? Infinity]
    : [-Infinity, highest(run, meant)];
  for (let i = 0; i < v.pinned.length; i++) {
    if (quantityIn(v, i) <= NOTHING || !canDistil(run, i)) continue;
    const boil_C = run.compiled.shelf.boil_C[i]!;
    const t = RULES.distilTolerance_C;
    if (boil_C >= low_C - t && boil_C <= high_C + t) over.push(i);
  }
  if (!between) for (const i of meant) if (!over.includes(i)) over.push(i);
  if (between && over.length === 0) over.push(...underReducedPressure(run, v, rule, meant));
  for (const i of over) gather(run, v, i, VAPOUR);
}

/** The named substance, else what the author is making, of what is there. */
function targets(run: Run, v: Vessel, name: string | undefined): number[] {
  const { shelf, isProduct, isKept } = run.compiled;
  const wanted = name?.toLowerCase();
  const there: number[] = [];
  for (let i = 0; i < v.pinned.length; i++) if (quantityIn(v, i) > NOTHING) there.push(i);
  if (wanted !== undefined)
    return there.filter((i) => {
      const s = shelf.substances[i]!;
      return s.id === wanted || s.name.toLowerCase() === wanted;
    });
  const products = there.filter((i) => isProduct[i]);
  return products.length > 0 ? products : there.filter((i) => isKept[i]);
}

function highest(run: Run, meant: readonly number[]): number {
  let high_C = -Infinity;
  for (const i of meant) {
    const boil_C = run.compiled.shelf.boil_C[i]!;
    if (boil_C > high_C) high_C = boil_C;
  }
  return high_C;
}

function canDistil(run: Run, i: number): boolean {
  const hint = run.compiled.shelf.hint[i];
  return hint === 'water' || hint === 'miscible' || hint === 'organic';
}

/** Nothing boils there at ambient pressure: a product that boils higher is taken to be meant. */
function underReducedPressure(
  run: Run,
  v: Vessel,
  rule: Distil,
  meant: readonly number[],
): readonly number[] {
  if (v.unknown) return [];
  const range = [rule.from_C, rule.to_C]
    .filter((t) => t !== undefined)
    .map(figure)
    .join(' to ');
  const found = meant.filter((i) => canDistil(run, i));
  const names = listed(found.map((i) => nameOf(run, i)));
  say(
    run,
    'distil-range',
    found.length > 0 ? 'note' : 'warning',
    `Nothing in the ${v.plan.name} is known to boil at ${range} °C` +
      (found.length > 0 ? `: ${names} is taken to come over, under reduced pressure.` : '.'),
    'Check the head temperatures, or give boiling points under Substances.',
  );
  return found;
}

/** Organic liquids and solids that boil within reach come over, and water along with them. */
function steamDistil(run: Run, v: Vessel, rule: Distil): void {
  const { shelf } = run.compiled;
  const meant = targets(run, v, rule.substance);
  let organic_g = 0;
  for (let i = 0; i < v.pinned.length; i++) {
    const quantity = quantityIn(v, i);
    if (quantity <= NOTHING) continue;
    const within = shelf.boil_C[i]! <= RULES.steamLimit_C;
    const reachable = shelf.hint[i] === 'organic' && within;
    if (!reachable && !meant.includes(i)) continue;
    organic_g += quantity * shelf.g[i]!;
    gather(run, v, i, VAPOUR);
  }
  let water_g = organic_g * RULES.steamWater_g_g;
  for (let i = 0; i < v.pinned.length; i++) {
    if (shelf.hint[i] !== 'water') continue;
    for (const phase of [AQUEOUS, ORGANIC, SOLID]) {
      const loose = v.held[phase]![i]! - (phase === SOLID ? v.pinned[i]! : 0);
      const quantity = Math.min(loose, water_g / shelf.g[i]!);
      if (quantity <= 0) continue;
      shift(run, v, i, phase, VAPOUR, quantity);
      water_g -= quantity * shelf.g[i]!;
    }
  }
}
