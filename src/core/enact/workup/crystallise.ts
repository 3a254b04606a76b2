import type { Run } from '../run.ts';
import { say } from '../run.ts';
import type { Vessel } from '../vessel.ts';
import { bringOut, comesOut } from './crystals.ts';

/** The declared product, or what is kept for the next reaction, or any organic solid comes out whole. */
export function crystallise(run: Run, v: Vessel): void {
  const { isProduct, isKept } = run.compiled;
  const ready: number[] = [];
  for (let i = 0; i < v.pinned.length; i++) if (comesOut(run, v, i)) ready.push(i);
  const products = ready.filter((i) => isProduct[i]);
  const kept = ready.filter((i) => isKept[i]);
  const out = products.length > 0 ? products : kept.length > 0 ? kept : ready;
  for (const i of out) bringOut(run, v, i);
  if (out.length === 0 && !v.unknown)
    say(
      run,
      'nothing-crystallises',
      'warning',
      `Nothing in the ${v.plan.name} is known to be solid when cold: no crystals are counted.`,
      'Check what it holds; a melting point or "solid" under Substances settles it.',
    );
}
