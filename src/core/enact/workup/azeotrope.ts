import type { Run } from '../run.ts';
import { gather } from '../settle.ts';
import type { Vessel } from '../vessel.ts';
import { VAPOUR } from '../vessel.ts';

/** Water goes over to the trap, all of it; the entrainer runs back. */
export function azeotrope(run: Run, v: Vessel): void {
  for (let i = 0; i < v.pinned.length; i++)
    if (run.compiled.shelf.hint[i] === 'water') gather(run, v, i, VAPOUR);
}
