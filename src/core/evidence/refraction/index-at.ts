import waterTable from '../../facts/water_refraction.json' with { type: 'json' };
import { numberIn, rowsOf } from '../../facts/table.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';
import { add, measured, scale } from '../../quantity/uncertain.ts';

/**
 * Fall of n_D of organic liquids, 1/°C: 0.00045 is common practice, and single liquids lie between
 * 0.00035 and 0.00055, near the boiling point up to 0.0007 (laboratory manuals).
 */
const FALL_PERC = 0.00045;
const FALL_U_PERC = 0.00008;
/** Of a coefficient that was entered: two figures of it (judgement). */
const GIVEN_RELATIVE_U = 0.05;

/** n at another temperature in °C: n + k·(T − T′). Falls as T′ rises. */
export function indexAt(n: number, T_C: number, other_C: number, fall_perC = FALL_PERC): number {
  return n + fall_perC * (T_C - other_C);
}

/** The same with the uncertainty of k. */
export function indexWithUncertainty(
  n: Uncertain,
  T_C: number,
  other_C: number,
  fall_perC: number | undefined,
): Uncertain {
  const k =
    fall_perC === undefined
      ? measured('dn/dT', FALL_PERC, FALL_U_PERC)
      : measured('dn/dT', fall_perC, GIVEN_RELATIVE_U * fall_perC);
  return add(n, scale(k, T_C - other_C));
}

export const USUAL_FALL_PERC = FALL_PERC;

let water: readonly { readonly T_C: number; readonly index: number }[] | undefined;

/** n_D of pure water, linear between the rows of data/water_refraction.csv; undefined outside. */
export function waterIndex(T_C: number): number | undefined {
  water ??= rowsOf(waterTable).map((row) => ({
    T_C: numberIn(row['T_C'])!,
    index: numberIn(row['index'])!,
  }));
  const above = water.findIndex((row) => row.T_C >= T_C);
  const high = water[above];
  if (high === undefined) return undefined;
  if (high.T_C === T_C) return high.index;
  const low = water[above - 1];
  if (low === undefined) return undefined;
  return low.index + ((T_C - low.T_C) / (high.T_C - low.T_C)) * (high.index - low.index);
}

/**
 * Share of the first of two liquids in a mixture whose index lies between theirs, mixed linearly.
 * Nearest to a share by volume; teaching laboratories read it as mole fraction too.
 */
export function shareByIndex(n: number, first: number, second: number): number {
  return (n - second) / (first - second);
}
