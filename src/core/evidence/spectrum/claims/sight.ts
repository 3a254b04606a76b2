import type { IrBand } from '../judge/bands.ts';
import { whatHides } from '../judge/hiding.ts';
import { heightAt } from '../judge/maxima.ts';
import { covers } from '../judge/view.ts';
import type { Peak } from '../treat/peaks.ts';
import type { TableCase } from './table-case.ts';

/** What the trace has where a claim puts a band. */
export interface Sight {
  /** Maximum of the absorbance, shoulders among them, nearest to the claim; of a range the tallest. */
  readonly nearest?: Peak;
  /** From the claim to it; 0 inside a range. */
  readonly distance_percm: number;
  readonly tolerance_percm: number;
  /** `nearest`, where it is near enough to be meant. */
  readonly band?: Peak;
  /** Nothing peaks there, but a very wide band covers the place. */
  readonly covered: boolean;
  readonly share: number;
  /** Why nothing can be said of the place. */
  readonly hidden?: string;
  readonly saturated: boolean;
}

/** Common practice for reading positions off a trace, for narrow and for wide bands. */
const NARROW_PERCM = 10;
const BROAD_PERCM = 40;
/** A dimer's O–H has no place of its own; it covers some hundred cm⁻¹. */
const COVERED_SHARE = 0.08;
const BROAD_WIDTH_PERCM = 80;

interface Place {
  readonly low_percm: number;
  readonly high_percm: number;
  readonly rows: readonly IrBand[];
  readonly shape: string;
}

export function sightOf(table: Omit<TableCase, 'claims'>, place: Place): Sight {
  const { peaks, spectrum, quality, context } = table;
  const { low_percm, high_percm, rows, shape } = place;
  // A wide band has many bends: where a shoulder alone is near, it has to be as near as a narrow band
  const usable = peaks.filter(
    (peak) =>
      peak.kind === 'peak' || distanceOf(peak, place) <= NARROW_PERCM + spectrum.positionU_percm,
  );
  const nearest = nearestOf(usable, place, table);
  const away = nearest === undefined ? Infinity : distanceOf(nearest, place);
  const tolerance_percm = toleranceOf(spectrum.positionU_percm, place, nearest, shape);
  const middle = (low_percm + high_percm) / 2;
  const height = heightAt(
    context.view,
    nearest !== undefined && away === 0 ? nearest.position_percm : middle,
  );
  const share = Number.isNaN(height) ? 0 : height / context.view.tallest;
  const wide = rows.some(
    (row) =>
      row.shape === 'very broad' &&
      row.duty === 'must' &&
      row.pattern !== 'water' &&
      row.low_percm <= high_percm &&
      row.high_percm >= low_percm,
  );
  const hidden = hiddenOf(table, low_percm, high_percm);
  const isThere = nearest !== undefined && away <= tolerance_percm;
  return {
    ...(nearest === undefined ? {} : { nearest }),
    distance_percm: away,
    tolerance_percm,
    ...(isThere ? { band: nearest } : {}),
    covered: wide && share > COVERED_SHARE,
    share: isThere
      ? heightAt(context.view, nearest.position_percm) / context.view.tallest || 0
      : share,
    ...(hidden === undefined ? {} : { hidden }),
    saturated: quality.saturated.some(
      ([from, to]) => from <= high_percm + NARROW_PERCM && to >= low_percm - NARROW_PERCM,
    ),
  };
}

function nearestOf(
  peaks: readonly Peak[],
  place: Place,
  { context }: Pick<TableCase, 'context'>,
): Peak | undefined {
  const inside = peaks.filter((peak) => distanceOf(peak, place) === 0);
  const height = ({ position_percm }: Peak): number => heightAt(context.view, position_percm) || 0;
  if (inside.length > 0) return inside.reduce((a, b) => (height(b) > height(a) ? b : a));
  return peaks.reduce<Peak | undefined>(
    (best, peak) =>
      best === undefined || distanceOf(peak, place) < distanceOf(best, place) ? peak : best,
    undefined,
  );
}

const distanceOf = (
  { position_percm: p }: Peak,
  { low_percm, high_percm }: Pick<Place, 'low_percm' | 'high_percm'>,
): number => Math.max(0, low_percm - p, p - high_percm);

function toleranceOf(
  u_percm: number,
  { rows, high_percm, low_percm }: Place,
  nearest: Peak | undefined,
  shape: string,
): number {
  const isBroad =
    (nearest !== undefined && nearest.width_percm > BROAD_WIDTH_PERCM && nearest.kind === 'peak') ||
    (/\bbr(?:oad)?\b|wide/.test(shape) && low_percm > 2400) ||
    rows.some(
      (row) =>
        row.shape.includes('broad') &&
        row.low_percm <= high_percm &&
        row.high_percm >= low_percm &&
        row.low_percm > 2400,
    );
  return (isBroad ? BROAD_PERCM : NARROW_PERCM) + u_percm;
}

/** A claim is only doubted where the trace is there to be looked at. */
function hiddenOf(
  { context }: Pick<TableCase, 'context'>,
  low_percm: number,
  high_percm: number,
): string | undefined {
  const [low, high] = [low_percm - NARROW_PERCM, high_percm + NARROW_PERCM];
  if (!covers(context.view, low, high, 0.7))
    return `The record does not cover ${Math.round(low_percm)} cm⁻¹.`;
  return whatHides(context, low, high);
}
