import type { Enactment } from '../../enact/enactment.ts';
import type { Basis } from '../../ledger/posting.ts';
import { weakest } from '../common/basis.ts';
import { vesselOf } from '../common/name.ts';

interface Held {
  mass_g: number;
  basis: Basis;
}

/** Below this a vessel is taken to be free of a substance. */
const TRACE_g = 1e-9;

/**
 * How well what a vessel holds of a substance is known after a step: as well as the least well known
 * of what came in since it was last free of it. Sorting into phases within a vessel does not count.
 */
export function basesAt(
  { postings, trace }: Enactment,
  step: string,
): (vessel: string, substance: string) => Basis {
  const order = new Map(trace.map((each, row) => [each.step, row]));
  const last = order.get(step) ?? -1;
  const held = new Map<string, Held>();
  for (const { step: at, from, to, substance, mass_g, basis } of postings) {
    if ((order.get(at) ?? 0) > last) break;
    const source = vesselOf(from);
    const target = vesselOf(to);
    if (source === target) continue;
    const left = source === undefined ? undefined : held.get(`${source}|${substance}`);
    if (left !== undefined) left.mass_g -= mass_g;
    if (target === undefined) continue;
    const key = `${target}|${substance}`;
    const there = held.get(key);
    if (there === undefined || there.mass_g <= TRACE_g) held.set(key, { mass_g, basis });
    else {
      there.mass_g += mass_g;
      there.basis = weakest([there.basis, basis], basis);
    }
  }
  return (vessel, substance) => held.get(`${vessel}|${substance}`)?.basis ?? 'assumed';
}
