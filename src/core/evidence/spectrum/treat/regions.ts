import linesTable from '../../../facts/vapour_lines.json' with { type: 'json' };
import { numberIn, rowsOf } from '../../../facts/table.ts';
import { bendOf } from './bend.ts';
import { linearFit } from './linear-fit.ts';
import { indexAt, medianOf, nearestTo, stepsOf } from './order.ts';

/** Air between background and sample: more of the gas (height above 0) or less of it (below). */
export interface AirBand {
  readonly gas: 'carbonDioxide' | 'waterVapour';
  /** Absorbance at its strongest place, with its sign. */
  readonly height: number;
  readonly regions: readonly (readonly [from_percm: number, to_percm: number])[];
}

/** Where each gas is looked for, and what is then not to be trusted. From memory. */
export const AIR_REGIONS = {
  carbonDioxide: [
    [655, 680],
    [2280, 2390],
  ],
  waterVapour: [
    [1300, 1900],
    [3500, 3900],
  ],
} as const;

/** The two branches of the stretch of CO2 as an instrument of 4 cm⁻¹ shows them. From memory. */
const CO2_BRANCHES = [
  { position_percm: 2361, spread_percm: 8, height: 1 },
  { position_percm: 2339, spread_percm: 11, height: 0.85 },
] as const;
const CO2_FIT = { low_percm: 2270, high_percm: 2420 };

/** How many times its uncertainty, and how well it must look like the gas. */
const SURE = 5;
const ALIKE = 0.7;

/**
 * Carbon dioxide of the air, by the fit of its two branches and a straight line to what is there;
 * absent where nothing of that shape stands out of the noise.
 */
export function carbonDioxideIn(
  x: Float64Array,
  y: Float64Array,
  noise: number,
): AirBand | undefined {
  const first = indexAt(x, CO2_FIT.low_percm);
  const past = indexAt(x, CO2_FIT.high_percm);
  if (past - first < 12 || x[first]! > 2300 || x[past - 1]! < 2390) return undefined;
  const shape = new Float64Array(past - first);
  const ones = new Float64Array(past - first).fill(1);
  const tilt = new Float64Array(past - first);
  for (let i = 0; i < shape.length; i++) {
    const place = x[first + i]!;
    tilt[i] = (place - 2350) / 100;
    for (const { position_percm, spread_percm, height } of CO2_BRANCHES)
      shape[i]! += height * Math.exp(-(((place - position_percm) / spread_percm) ** 2) / 2);
  }
  const here = y.subarray(first, past);
  const fit = linearFit([shape, ones, tilt], here);
  if (fit === undefined) return undefined;
  const [height = 0, level = 0, slope = 0] = fit.values;
  let [left, all] = [0, 0];
  for (let i = 0; i < here.length; i++) {
    const above = here[i]! - level - slope * tilt[i]!;
    left += fit.residual[i]! ** 2;
    all += above ** 2;
  }
  const alike = 1 - left / Math.max(all, 1e-30);
  const u = Math.max(fit.u[0]!, noise / 2);
  if (Math.abs(height) < SURE * u || alike < ALIKE) return undefined;
  return { gas: 'carbonDioxide', height, regions: AIR_REGIONS.carbonDioxide };
}

const WATER_PERCM = rowsOf(linesTable)
  .filter((row) => row['gas'] === 'water')
  .map((row) => numberIn(row['position_percm'])!)
  .sort((a, b) => a - b);

/** The comb of lines is also laid beside its place, to see what chance would give. */
const FARTHEST_SHIFT_PERCM = 26;
/** Nearer than this a shifted comb still touches the lines. */
const TOUCHING_PERCM = 5;
/** Where a line no longer reaches. */
const SIDE_PERCM = 5;
/** How many spreads of the shifted combs, and which share of the lines must point one way. */
const SURE_OF_COMB = 4;
const ONE_WAY = 0.75;
/** Lines are 4 cm⁻¹ wide and less; points farther apart do not show them. */
const COARSEST_PERCM = 4.5;
/** Fainter lines are there in most spectra and change nothing. */
const FAINT = 3e-4;
const FEWEST_LINES = 12;

/**
 * Water vapour, by its lines: how sharply the curve bends at the places of some forty lines, against
 * the same at combs shifted by 5 to 26 cm⁻¹. Absent where the comb does not stand out, and where the
 * points lie too far apart to show lines.
 */
export function waterVapourIn(x: Float64Array, y: Float64Array): AirBand | undefined {
  const parts = AIR_REGIONS.waterVapour.flatMap(([low, high]) => combPart(x, y, low, high));
  const lines = parts.reduce((sum, part) => sum + part.lines.length, 0);
  if (lines < FEWEST_LINES) return undefined;
  const comb = combOf(parts);
  const beside: number[] = [];
  for (let shift = TOUCHING_PERCM; shift <= FARTHEST_SHIFT_PERCM; shift++)
    beside.push(comb(shift).sum, comb(-shift).sum);
  const mean = beside.reduce((sum, each) => sum + each, 0) / beside.length;
  const squares = beside.reduce((sum, each) => sum + (each - mean) ** 2, 0);
  const spread = Math.sqrt(squares / (beside.length - 1));
  const own = comb(0);
  if (!(Math.abs(own.sum - mean) > SURE_OF_COMB * spread)) return undefined;
  if (Math.max(own.down, 1 - own.down) < ONE_WAY) return undefined;
  const height = lineHeight(parts);
  if (Math.abs(height) < FAINT || Math.sign(height) !== Math.sign(own.sum)) return undefined;
  return { gas: 'waterVapour', height, regions: AIR_REGIONS.waterVapour };
}

interface CombPart {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly lines: readonly number[];
  /** How much more sharply the curve bends down at a point than a little to either side. */
  readonly sharp: Float64Array;
  readonly usual: number;
}

/** One region of lines; none where the curve does not reach over it or is too coarse. */
function combPart(x: Float64Array, y: Float64Array, low: number, high: number): CombPart[] {
  const margin = FARTHEST_SHIFT_PERCM + 2 * SIDE_PERCM;
  const first = indexAt(x, low - margin);
  const past = indexAt(x, high + margin);
  if (past - first < 50) return [];
  const [xs, ys] = [x.subarray(first, past), y.subarray(first, past)];
  if (medianOf(stepsOf(xs)) > COARSEST_PERCM) return [];
  const lines = WATER_PERCM.filter(
    (line) => line > Math.max(low, xs[0]! + margin) && line < Math.min(high, xs.at(-1)! - margin),
  );
  const { second } = bendOf(xs, ys, SIDE_PERCM / 2, 2);
  const sharp = new Float64Array(xs.length);
  let [before, after] = [0, 0];
  for (let i = 0; i < xs.length; i++) {
    while (before + 1 < xs.length && xs[before + 1]! <= xs[i]! - SIDE_PERCM) before++;
    while (after + 1 < xs.length && xs[after]! < xs[i]! + SIDE_PERCM) after++;
    sharp[i] = (second[before]! + second[after]!) / 2 - second[i]!;
  }
  const usual = medianOf(sharp.map(Math.abs)) || 1e-12;
  return [{ x: xs, y: ys, lines, sharp, usual }];
}

/** Summed over all lines, each held to a few times the usual; and the share that bends down. */
function combOf(parts: readonly CombPart[]) {
  const all = parts.reduce((sum, part) => sum + part.lines.length, 0);
  return (shift: number) => {
    let [sum, down] = [0, 0];
    for (const { x, lines, sharp, usual } of parts)
      for (const line of lines) {
        const bend = sharp[nearestTo(x, line + shift)]! / usual;
        sum += Math.max(-6, Math.min(6, bend));
        if (bend > 0) down++;
      }
    return { sum, down: down / all };
  };
}

/** The median height of the lines above their feet. */
function lineHeight(parts: readonly CombPart[]): number {
  const heights = parts.flatMap(({ x, y, lines }) => {
    const at = (place: number): number => y[nearestTo(x, place)]!;
    return lines.map((line) => at(line) - (at(line - SIDE_PERCM) + at(line + SIDE_PERCM)) / 2);
  });
  return medianOf(Float64Array.from(heights));
}
