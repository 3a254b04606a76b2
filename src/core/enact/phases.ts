import { RULES } from './rules.ts';
import type { Shelf } from './shelf.ts';
import { isLiquid } from './shelf.ts';
import { AQUEOUS, ORGANIC, SOLID, VAPOUR } from './vessel.ts';

/** Mass (g) of the liquids in a vessel by kind. */
interface Liquids {
  water: number;
  miscible: number;
  organic: number;
  /** Organic matter that is solid by itself. */
  organicSolid: number;
  /** Alcohols and the like, in which salts dissolve. */
  saltSolvent: number;
}

function liquidsOf(shelf: Shelf, free: Float64Array, temperature_C: number): Liquids {
  const sum: Liquids = { water: 0, miscible: 0, organic: 0, organicSolid: 0, saltSolvent: 0 };
  for (let i = 0; i < free.length; i++) {
    const quantity = free[i]!;
    if (quantity <= 0) continue;
    const mass_g = quantity * shelf.g[i]!;
    const hint = shelf.gaseous[i] ? 'gas' : shelf.hint[i]!;
    if (hint === 'water') sum.water += mass_g;
    else if (hint === 'miscible' || hint === 'organic') {
      if (!isLiquid(shelf, i, temperature_C)) sum.organicSolid += mass_g;
      else if (hint === 'miscible') sum.miscible += mass_g;
      else sum.organic += mass_g;
      if (shelf.dissolvesSalts[i]) sum.saltSolvent += mass_g;
    }
  }
  return sum;
}

/**
 * The phase in which each substance of a mixture belongs: the rule of docs/methods/phases.md.
 * `free` holds quantities by shelf number, `target` is filled with phase numbers. `layers` says
 * that the author sees two layers, so that a little ether in aqueous alcohol is one of them.
 */
export function assignPhases(
  shelf: Shelf,
  free: Float64Array,
  temperature_C: number,
  layers: boolean,
  target: Uint8Array,
): void {
  const m = liquidsOf(shelf, free, temperature_C);
  const aqueous = m.water > 0 && m.water > RULES.waterShare * (m.water + m.miscible);
  const carries = m.miscible > RULES.miscibleShare * (m.water + m.miscible);
  const single = aqueous && !layers && carries && m.organic <= RULES.organicToMiscible * m.miscible;
  const organicLayer = aqueous ? m.organic > 0 && !single : m.organic + m.miscible > 0;
  const organicLiquid = aqueous ? m.organic : m.organic + m.miscible;
  const dissolves =
    organicLayer && m.organicSolid <= RULES.solidToLiquid * organicLiquid
      ? ORGANIC
      : aqueous && carries && !(layers && organicLayer)
        ? AQUEOUS
        : SOLID;
  const liquid = m.water + m.miscible + m.organic;
  const polar = aqueous
    ? AQUEOUS
    : m.saltSolvent > 0 && m.saltSolvent >= RULES.saltSolventShare * liquid
      ? ORGANIC
      : SOLID;
  const mixed = aqueous ? AQUEOUS : ORGANIC;
  for (let i = 0; i < free.length; i++) {
    if (free[i]! <= 0) continue;
    const hint = shelf.hint[i]!;
    if (shelf.gaseous[i]) {
      const stays = shelf.staysDissolved[i] && (m.water > 0 || m.saltSolvent > 0);
      const carried = shelf.inSolution[i] && (m.water > 0 || organicLayer);
      target[i] = stays || carried ? mixed : VAPOUR;
    } else if (hint === 'insoluble') target[i] = SOLID;
    else if (hint === 'water') target[i] = aqueous ? AQUEOUS : organicLayer ? ORGANIC : AQUEOUS;
    else if (hint === 'salt') {
      // Neat mineral acids are liquids of their own, and mix with any alcohol or acid there is.
      const ownLiquid = polar === SOLID && shelf.substances[i]!.state === 'liquid';
      target[i] = ownLiquid ? (m.miscible > 0 && !aqueous ? ORGANIC : AQUEOUS) : polar;
    } else if (isLiquid(shelf, i, temperature_C)) {
      if (hint === 'miscible') target[i] = mixed;
      else target[i] = organicLayer ? ORGANIC : AQUEOUS;
    } else target[i] = hint === 'miscible' && aqueous ? AQUEOUS : dissolves;
  }
}
