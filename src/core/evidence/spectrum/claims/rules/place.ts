import type { IrBand } from '../../judge/bands.ts';
import { at } from '../../judge/evidence.ts';
import { heightAt } from '../../judge/maxima.ts';
import { lowest } from '../../judge/view.ts';
import type { Peak } from '../../treat/peaks.ts';
import { findPeaks } from '../../treat/peaks.ts';
import type { ClaimFinding } from '../finding.ts';
import type { ClaimCase, TableCase } from '../table-case.ts';
import { reaches, seenAs, shareAt, slackOf } from '../table-case.ts';
import { finding, isRead, written } from './rule.ts';

/**
 * Why a band may stand in a table that is not in the trace. Asked of every line without a band, also
 * of those whose words are not known. "No band there" comes first of all; the others say how it
 * could have come about, and are the more likely the better the place fits.
 */
export function placeFindings(one: ClaimCase, table: TableCase): ClaimFinding[] {
  if (isRead(one) && one.reading.said === 'absent') return [];
  if (one.sight.hidden !== undefined && !offScale(one)) return [];
  const { band, covered } = one.sight;
  if (band !== undefined || covered) return [];
  const flank = isOnFlank(one, table);
  const plain = noBandThere(one, table);
  const others = [
    tableValue(one, table),
    wavelength(one, table),
    axisBreak(one, table),
    minimumPicked(one, table),
  ].filter((each) => each !== undefined);
  if (!flank) return [plain, ...others];
  return [plain, ...others].map((each) => ({
    ...each,
    weight: 'doubts' as const,
    likelihood: Math.round(75 * each.likelihood) / 100,
  }));
}

const FLANK_WIDTH_PERCM = 80;
const FLANK_SHARE = 0.7;

/** Near the top of a wide band, though not at it: the band may well be meant. */
function isOnFlank({ sight, low_percm, high_percm }: ClaimCase, table: TableCase): boolean {
  const { nearest, distance_percm } = sight;
  if (nearest === undefined || nearest.width_percm < FLANK_WIDTH_PERCM) return false;
  const here = shareAt(table, (low_percm + high_percm) / 2);
  return (
    distance_percm < nearest.width_percm / 2 &&
    here > FLANK_SHARE * shareAt(table, nearest.position_percm)
  );
}

/** Outside any infrared record: a wavelength, or a slip of the pen. */
export const offScale = ({ low_percm, high_percm }: ClaimCase): boolean =>
  high_percm < 350 || low_percm > 4100;

function noBandThere(one: ClaimCase, table: TableCase): ClaimFinding {
  const { nearest, distance_percm } = one.sight;
  const away = nearest === undefined ? '' : ` The nearest one is at ${at(nearest.position_percm)}.`;
  const meant = meantBand(one, table);
  return finding(one, 'no-band-there', 'contradicts', 0.62, {
    says: `The trace has no band at ${written(one)}.${away}`,
    right:
      meant === undefined
        ? undefined
        : `The band at ${at(meant.position_percm)} is where that group absorbs.`,
    evidence:
      nearest === undefined || distance_percm > 200 ? [] : [seenAs(table, 'nearest band', nearest)],
  });
}

/** Windows in which the group of the claim may absorb: the product's where it has the group. */
export function windowsOf(one: ClaimCase, table: TableCase): readonly IrBand[] {
  if (!isRead(one)) return [];
  const ofProduct = (table.productRows ?? []).filter(({ id }) => one.reading.bandIds.has(id));
  return ofProduct.length > 0
    ? ofProduct
    : table.rows.filter(({ id }) => one.reading.bandIds.has(id));
}

const inWindow = (peak: Peak, windows: readonly IrBand[], slack: number): boolean =>
  windows.some((band) =>
    reaches(band, { low_percm: peak.position_percm, high_percm: peak.position_percm }, slack),
  );

/** The most prominent band of the trace where the group absorbs. */
function meantBand(one: ClaimCase, table: TableCase): Peak | undefined {
  const windows = windowsOf(one, table);
  const reach = one.sight.tolerance_percm > 30 ? 400 : 150;
  return table.peaks
    .filter((peak) => inWindow(peak, windows, slackOf(table)))
    .filter((peak) => Math.abs(peak.position_percm - one.low_percm) < reach)
    .reduce<Peak | undefined>(
      (best, peak) => (best === undefined || peak.prominence > best.prominence ? peak : best),
      undefined,
    );
}

/** The middle of a window as tables print it, or a round number such as 1725 or 3400. */
function tableValue(one: ClaimCase, table: TableCase): ClaimFinding | undefined {
  if (one.claim.high_percm !== undefined) return undefined;
  const position = one.low_percm;
  const windows = windowsOf(one, table);
  const middles = (isRead(one) ? table.rows.filter(({ id }) => one.reading.bandIds.has(id)) : [])
    .flatMap((band) => [
      (band.low_percm + band.high_percm) / 2,
      (band.coreLow_percm + band.coreHigh_percm) / 2,
    ])
    .map((middle) => Math.abs(middle - position));
  const isMiddle = Math.min(Infinity, ...middles) <= 1;
  const isRound = position % 50 === 0 || (position % 25 === 0 && position < 2000);
  const isInside = windows.some((band) => reaches(band, one, slackOf(table)));
  if (!isInside || !(isMiddle || isRound)) return undefined;
  return finding(one, 'table-value', 'contradicts', isMiddle ? 0.7 : 0.6, {
    says: isMiddle
      ? `${written(one)} is the middle of the range that tables give for this group; this trace has no band there.`
      : `${written(one)} is a round number, as tables give for this group; this trace has no band there.`,
    right: 'Read the position off the trace, to the nearest 1 or 2 cm⁻¹.',
  });
}

const SURE_PERCM = 8;

/** 1 where it fits to the wavenumber, falling to 0.3 at 20 cm⁻¹. */
const closeness = (away_percm: number): number =>
  Math.exp(-((away_percm / (2 * SURE_PERCM)) ** 2) * 0.8);

function nearBand(
  table: TableCase,
  windows: readonly IrBand[],
  position_percm: number,
  reach_percm: number,
): Peak | undefined {
  const slack = slackOf(table);
  return table.peaks
    .filter((peak) => Math.abs(peak.position_percm - position_percm) <= reach_percm)
    .filter((peak) => windows.length === 0 || inWindow(peak, windows, slack))
    .sort(
      (a, b) =>
        Math.abs(a.position_percm - position_percm) - Math.abs(b.position_percm - position_percm),
    )[0];
}

/** ν̃ = 10⁴/λ (λ in µm), 10⁷/λ (in nm). */
function wavelength(one: ClaimCase, table: TableCase): ClaimFinding | undefined {
  const value = one.low_percm;
  const inMicrometres = value < 30;
  const inNanometres = value > 4100 && value < 20_001;
  if (!inMicrometres && !inNanometres) return undefined;
  const position = (inMicrometres ? 1e4 : 1e7) / value;
  // A wavelength with two decimals is that much coarser
  const reach = Math.max(15, 0.006 * position);
  const peak = nearBand(table, windowsOf(one, table), position, Math.max(reach, 40));
  const likelihood = peak === undefined ? 0.65 : 0.95;
  return finding(one, 'wavelength-as-wavenumber', 'contradicts', likelihood, {
    says:
      `${value} reads like a wavelength in ${inMicrometres ? 'µm' : 'nm'}: as a wavenumber it is ` +
      `${at(position)}.`,
    right:
      peak === undefined
        ? `Divide ${inMicrometres ? '10 000 by the wavelength in µm' : '10 000 000 by the wavelength in nm'}.`
        : `The trace has a band at ${at(peak.position_percm)}.`,
    evidence: peak === undefined ? [] : [seenAs(table, 'band at 10⁴/λ', peak)],
  });
}

const BREAK_PERCM = 2000;

/**
 * Printed spectra change their scale at 2000 cm⁻¹ by a factor of two. Counted with the scale of the
 * other side, 2000 + d becomes 2000 + d/2 or 2000 + 2d.
 */
function axisBreak(one: ClaimCase, table: TableCase): ClaimFinding | undefined {
  if (!isRead(one)) return undefined;
  const windows = windowsOf(one, table);
  const away = (one.low_percm + one.high_percm) / 2 - BREAK_PERCM;
  // Where the group absorbs at the place as written, nothing has to be put right
  if (Math.abs(away) < 60 || windows.some((band) => reaches(band, one, slackOf(table))))
    return undefined;
  const candidates = [BREAK_PERCM + 2 * away, BREAK_PERCM + away / 2].flatMap((position) => {
    const peak = nearBand(table, windows, position, one.sight.tolerance_percm > 30 ? 60 : 24);
    return peak === undefined ? [] : [{ peak, off: Math.abs(peak.position_percm - position) }];
  });
  const best = candidates.sort((a, b) => a.off - b.off)[0];
  if (best === undefined) return undefined;
  const broad = best.peak.width_percm > 80;
  return finding(
    one,
    'axis-break',
    'contradicts',
    0.82 * closeness(broad ? best.off / 3 : best.off),
    {
      says:
        `Many printed spectra change their scale at 2000 cm⁻¹. Read with the scale of the other side, ` +
        `${at(best.peak.position_percm)} becomes ${written(one)}.`,
      right: `The trace has a band at ${at(best.peak.position_percm)}, where this group absorbs.`,
      evidence: [seenAs(table, 'band on the other scale', best.peak)],
    },
  );
}

/** Farther apart, two bands have baseline between them, and nobody takes that for a band. */
const FARTHEST_NEIGHBOURS_PERCM = 300;
const NARROW_GAP_PERCM = 160;
/** How near to the bottom, as a share of the depth, still counts where the bottom is flat or noisy. */
const BOTTOM = 0.06;

/** In %T a band points down: the place between two bands is the summit of the curve. */
function minimumPicked(one: ClaimCase, table: TableCase): ClaimFinding | undefined {
  if (one.claim.high_percm !== undefined) return undefined;
  const position = one.low_percm;
  const [left, right] = neighbours(table.peaks, position);
  if (left === undefined || right === undefined) return undefined;
  const gap = right.position_percm - left.position_percm;
  if (gap > FARTHEST_NEIGHBOURS_PERCM) return undefined;
  const valley = valleysNear(table, position)[0];
  const off = valley === undefined ? Infinity : Math.abs(valley.position_percm - position);
  const reach = Math.max(5, Math.min(12, (valley?.width_percm ?? 0) / 8));
  const isLow = gap < NARROW_GAP_PERCM && isAtBottom(table, position, left, right);
  if (off > reach && !isLow) return undefined;
  return finding(one, 'minimum-picked', 'contradicts', off > reach ? 0.5 : 0.8 - 0.03 * off, {
    says:
      `At ${written(one)} the absorbance is lowest between the bands at ${at(left.position_percm)} and ` +
      `${at(right.position_percm)}. On a scale of %T that is the top of the curve.`,
    right: `Bands point down on a scale of %T: ${at(left.position_percm)} or ${at(right.position_percm)}.`,
    evidence: [seenAs(table, 'band beside it', left), seenAs(table, 'band beside it', right)],
  });
}

function isAtBottom({ context }: TableCase, position: number, left: Peak, right: Peak): boolean {
  const { view } = context;
  const bottom = lowest(view, left.position_percm, right.position_percm);
  const top = Math.min(heightAt(view, left.position_percm), heightAt(view, right.position_percm));
  const level = bottom + Math.max(BOTTOM * (top - bottom), 3 * view.noise);
  return heightAt(view, position) <= level;
}

function valleysNear(table: TableCase, position_percm: number): Peak[] {
  const { wavenumber_percm: x, absorbance: y } = table.spectrum;
  const least = Math.max(0.01 * table.quality.highest, 7 * table.quality.noise);
  const valleys = valleysOf(table, () =>
    findPeaks(
      x,
      y.map((value) => -value),
      {
        minProminence: least,
        noise: table.quality.noise,
        shoulders: false,
      },
    ),
  );
  return [...valleys].sort(
    (a, b) =>
      Math.abs(a.position_percm - position_percm) - Math.abs(b.position_percm - position_percm),
  );
}

/** The same curve is asked for its valleys once a table. */
const kept = new WeakMap<TableCase, readonly Peak[]>();

function valleysOf(table: TableCase, find: () => readonly Peak[]): readonly Peak[] {
  const known = kept.get(table) ?? find();
  kept.set(table, known);
  return known;
}

function neighbours(
  peaks: readonly Peak[],
  position_percm: number,
): readonly [left: Peak | undefined, right: Peak | undefined] {
  const summits = peaks.filter(({ kind }) => kind === 'peak');
  return [
    summits.filter((peak) => peak.position_percm < position_percm).at(-1),
    summits.find((peak) => peak.position_percm > position_percm),
  ];
}
