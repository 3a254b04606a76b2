import type { TraceContext } from './context.ts';
import { canHold, isSolid } from './context.ts';
import type { Maximum } from './maxima.ts';
import { maximaWithin, tallestOf } from './maxima.ts';
import { meanHeight } from './view.ts';

/**
 * Patterns of several bands that make a group's own band unreadable: a verdict "absent" would then
 * rest on a band that such molecules do not show. Figures from correlation tables, from memory.
 */

const strong = (
  { maxima, view }: TraceContext,
  low: number,
  high: number,
  share: number,
): Maximum | undefined =>
  tallestOf(
    maximaWithin(maxima, low, high).filter(
      ({ height, prominence }) => height > share * view.tallest && prominence > 0.25 * height,
    ),
  );

/** C–H of a ring or of C=C, and a band of the ring: what a chelate is conjugated with. */
function isConjugated(context: TraceContext): boolean {
  return (
    strong(context, 1560, 1603, 0.15) !== undefined &&
    strong(context, 1440, 1530, 0.15) !== undefined
  );
}

/**
 * An O–H bonded to a C=O or C=N beside it: the strongest double bond lies at 1612–1650, and nothing
 * else of a C=O above 1676. The O–H band is then spread from 2500 to 3300 and often not seen.
 */
export function isChelate(context: TraceContext, from_percm = 1612): boolean {
  if (context.state === 'gas' || !canHold(context, 'O')) return false;
  const slack = context.view.positionU_percm / 2;
  const to_percm = isSolid(context.state) ? 1648 : 1640;
  const low = strong(context, from_percm - slack, to_percm + slack, 0.55);
  if (low === undefined || low.width_percm > 45) return false;
  const free = strong(context, 1676, 1830, 0.35);
  return free === undefined && isConjugated(context);
}

/** The C=O and C=C of an enolised 1,3-dicarbonyl run together, broad and strong. */
export function isEnol(context: TraceContext): boolean {
  if (context.state === 'gas' || !canHold(context, 'O') || isZwitterion(context)) return false;
  const band = strong(context, 1592, 1645, 0.6);
  return band !== undefined && band.width_percm > 45;
}

/** Both CO₂⁻ stretches of a salt: 1540–1592 the tallest and wide, 1390–1440 less so. */
export function isCarboxylate(context: TraceContext): boolean {
  if (context.state === 'gas' || !canHold(context, 'O')) return false;
  const upper = strong(context, 1540, 1592, 0.8);
  const lower = strong(context, 1385, 1440, 0.4);
  return upper !== undefined && upper.width_percm > 30 && lower !== undefined;
}

/**
 * NH₃⁺ or NH₂⁺ beside CO₂⁻: the curve stays up from 2450 to 3150, and a strong band at 1550–1640
 * stands where no C=O is.
 */
export function isZwitterion(context: TraceContext): boolean {
  if (context.state === 'gas' || !canHold(context, 'N') || !canHold(context, 'O')) return false;
  const { view } = context;
  const shelf = meanHeight(view, 2450, 2700) / view.tallest;
  const above = meanHeight(view, 3000, 3150) / view.tallest;
  const band = strong(context, 1550, 1640, 0.6);
  const free = strong(context, 1660, 1800, 0.5);
  return shelf > 0.08 && above > 0.2 && band !== undefined && free === undefined;
}

/** –O–NO₂: 1625–1670, 1265–1295 and 830–875, all strong. */
export function isNitrate(context: TraceContext): boolean {
  if (!canHold(context, 'N') || !canHold(context, 'O')) return false;
  return (
    strong(context, 1622, 1675, 0.6) !== undefined &&
    strong(context, 1262, 1298, 0.55) !== undefined &&
    strong(context, 828, 880, 0.4) !== undefined
  );
}

/** The shelf of an acid with its C=O as low as 1645–1672: a hydroxyl beside it bonds to that C=O. */
export function isSalicylic(context: TraceContext): boolean {
  if (!isSolid(context.state) || !canHold(context, 'O')) return false;
  const { view } = context;
  return (
    meanHeight(view, 2450, 2700) > 0.1 * view.tallest &&
    strong(context, 1645, 1672, 0.6) !== undefined &&
    strong(context, 1678, 1760, 0.5) === undefined
  );
}

/** An amide N–H with a wide second band below it, and the strong C–O of a phenol. */
export function isPhenolicAmide(context: TraceContext): boolean {
  if (!isSolid(context.state) || !canHold(context, 'N') || !canHold(context, 'O')) return false;
  const second = strong(context, 3130, 3232, 0.2);
  return (
    second !== undefined &&
    second.width_percm > 55 &&
    strong(context, 3290, 3430, 0.3) !== undefined &&
    strong(context, 1640, 1685, 0.6) !== undefined &&
    strong(context, 1222, 1288, 0.65) !== undefined
  );
}

/** –SO₂–: 1295–1345 and 1130–1172, both strong. */
export function isSulfonyl(context: TraceContext): boolean {
  return (
    canHold(context, 'S') &&
    strong(context, 1130, 1172, 0.7) !== undefined &&
    strong(context, 1295, 1350, 0.6) !== undefined
  );
}
