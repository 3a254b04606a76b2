import type { Run } from '../run.ts';
import { say } from '../run.ts';
import { figure } from '../say.ts';
import { shift } from '../settle.ts';
import type { Vessel } from '../vessel.ts';
import { AQUEOUS, NOTHING, ORGANIC, SOLID } from '../vessel.ts';
import { bringOut } from './crystals.ts';

/**
 * A drying agent binds water up to the highest hydrate that it forms, and is solid with it. Water
 * beyond that stays free.
 */
export function dry(run: Run, v: Vessel): void {
  const { shelf } = run.compiled;
  let capacity_g = 0;
  const agents: string[] = [];
  const waters: number[] = [];
  for (let i = 0; i < v.pinned.length; i++) {
    if (shelf.hint[i] === 'water') waters.push(i);
    if (!(shelf.capacity_g_g[i]! > 0)) continue;
    bringOut(run, v, i);
    const mass_g = v.held[SOLID]![i]! * shelf.g[i]!;
    if (mass_g <= NOTHING) continue;
    capacity_g += mass_g * shelf.capacity_g_g[i]!;
    agents.push(shelf.substances[i]!.name);
  }
  if (agents.length === 0) {
    if (!v.unknown)
      say(
        run,
        'drying-agent-missing',
        'note',
        `The ${v.plan.name} holds no drying agent that the table knows: no water is taken up.`,
        'Name the drying agent and its amount.',
      );
    return;
  }
  for (const i of waters) capacity_g -= v.held[SOLID]![i]! * shelf.g[i]!;
  const free_g = bindWater(run, v, waters, Math.max(0, capacity_g));
  if (free_g <= 1e-6) return;
  const needed_g = free_g + Math.max(0, capacity_g);
  say(
    run,
    'drying-agent-short',
    'warning',
    `${agents.join(' and ')} can bind about ${figure(Math.max(0, capacity_g))} g of water here, ` +
      `and ${figure(needed_g)} g is there.`,
    'Take the water layer off first, or use more drying agent.',
  );
}

/** Binds loose water in the solid; returns the mass (g) that stays free. */
function bindWater(run: Run, v: Vessel, waters: readonly number[], capacity_g: number): number {
  const { shelf } = run.compiled;
  let left_g = capacity_g;
  let free_g = 0;
  for (const i of waters)
    for (const phase of [ORGANIC, AQUEOUS]) {
      const there = v.held[phase]![i]!;
      if (there <= 0) continue;
      const bound = Math.min(there, left_g / shelf.g[i]!);
      shift(run, v, i, phase, SOLID, bound);
      v.pinned[i] = v.held[SOLID]![i]!;
      left_g -= bound * shelf.g[i]!;
      free_g += (there - bound) * shelf.g[i]!;
    }
  return free_g;
}
