import type { Run } from '../run.ts';
import { gather } from '../settle.ts';
import type { Vessel } from '../vessel.ts';
import { VAPOUR } from '../vessel.ts';
import { comesOut } from './crystals.ts';

/** The declared product goes over as vapour, whole; without one, every organic solid does. */
export function sublime(run: Run, v: Vessel): void {
  const ready: number[] = [];
  for (let i = 0; i < v.pinned.length; i++) if (comesOut(run, v, i)) ready.push(i);
  const products = ready.filter((i) => run.compiled.isProduct[i]);
  for (const i of products.length > 0 ? products : ready) gather(run, v, i, VAPOUR);
}
