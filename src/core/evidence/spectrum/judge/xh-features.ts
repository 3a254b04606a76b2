import type { CarbonylReading } from './carbonyl.ts';
import type { TraceContext } from './context.ts';
import type { Maximum } from './maxima.ts';
import { maximaWithin, mostProminent, tallestOf } from './maxima.ts';
import { highest, meanHeight } from './view.ts';

/** Two maxima of one window: none, as far apart as those of NH2, or as those of CONH2. */
export type Pairing = 'single' | 'close' | 'wide';
export type Level = 'low' | 'middle' | 'high';

/** What is measured between 2400 and 3760 cm⁻¹ and at the bands that go with X–H bonds. */
export interface XhFeatures {
  /** The most prominent maximum of the bonded O–H and N–H window. */
  readonly main?: Maximum;
  readonly share: number;
  readonly pairing: Pairing;
  /** A narrow maximum where nothing but an unbonded O–H (or a trace of water) absorbs. */
  readonly free?: Maximum;
  /** Mean height from 2450 to 2700, over the tallest band: acids and ammonium salts. */
  readonly shelf: number;
  /** The tallest of 1000 to 1260. */
  readonly carbonOxygen: Level;
  /** The tallest of 1585 to 1650: N–H bend, ring, water. */
  readonly bend: Level;
  /** An amide I with its amide II. */
  readonly amidePair: boolean;
  readonly carbonyl: number;
  readonly carbonylBand?: Maximum;
  /** A strong band from 1636 to 1692: the C=O of an amide, a chelate, a quinone; or C=N, C=C. */
  readonly lowCarbonyl: boolean;
  /** Is the main band twice a C=O, and small? */
  readonly overtone: boolean;
  /** 2100–2150 and 610–680 beside a narrow band near 3300. */
  readonly alkynePartner: boolean;
}

const WINDOW = [3070, 3570] as const;
const FREE = [3572, 3680] as const;

export function xhFeatures(context: TraceContext, reading: CarbonylReading): XhFeatures {
  const { maxima, view } = context;
  const inWindow = maximaWithin(maxima, ...WINDOW);
  const main = mainOf(inWindow);
  const free = mostProminent(
    maximaWithin(maxima, ...FREE).filter(({ width_percm }) => width_percm < 75),
  );
  const share = main === undefined ? 0 : main.height / view.tallest;
  const level = (low: number, high: number): number =>
    (tallestOf(maximaWithin(maxima, low, high))?.height ?? 0) / view.tallest;
  const band = reading.band;
  return {
    ...(main && { main }),
    share,
    pairing: main === undefined ? 'single' : pairingOf(inWindow, main),
    ...(free && { free }),
    shelf: Math.max(0, meanHeight(view, 2450, 2700) / view.tallest),
    carbonOxygen: levelOf(level(1000, 1260), 0.22, 0.55),
    bend: levelOf(level(1585, 1650), 0.15, 0.45),
    amidePair: level(1632, 1705) > 0.45 && level(1505, 1575) > 0.3,
    carbonyl: reading.probability,
    lowCarbonyl: level(1636, 1692) > 0.45,
    ...(band && { carbonylBand: band }),
    overtone: main !== undefined && band !== undefined && isOvertone(main, band),
    alkynePartner: highest(view.height, 600, 690) > 0.2 * view.tallest || level(2095, 2150) > 0.02,
  };
}

function levelOf(share: number, low: number, high: number): Level {
  if (share < low) return 'low';
  return share < high ? 'middle' : 'high';
}

/** The most prominent; an aryl C–H on the flank of the window is no O–H or N–H. */
function mainOf(inWindow: readonly Maximum[]): Maximum | undefined {
  return mostProminent(
    inWindow.filter(({ position_percm, width_percm }) => position_percm > 3125 || width_percm > 60),
  );
}

/** A neighbour as near as those of NH2 comes before a farther one: aryl NH2 has a third band. */
function pairingOf(inWindow: readonly Maximum[], main: Maximum): Pairing {
  const apart = inWindow
    .filter(
      (one) => one !== main && one.position_percm > 3130 && one.prominence > 0.07 * main.prominence,
    )
    .map((one) => Math.abs(one.position_percm - main.position_percm))
    .filter((gap) => gap >= 45);
  if (apart.length === 0) return 'single';
  return apart.some((gap) => gap < 135) ? 'close' : 'wide';
}

/** 2ν falls 10 to 40 below twice ν (anharmonicity) and has 1 to 6 % of its height. */
function isOvertone(main: Maximum, band: Maximum): boolean {
  const miss = main.position_percm - (2 * band.position_percm - 22);
  return Math.abs(miss) < 32 && main.height < 0.07 * band.height && main.width_percm < 90;
}
