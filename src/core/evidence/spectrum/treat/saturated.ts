import type { InfraredSpectrum } from '../infrared.ts';
import { absorbanceOf } from './absorbance.ts';

export type Stretch = readonly [from_percm: number, to_percm: number];

/** Above this no ordinary instrument tells one absorbance from another. Common practice. */
const TOO_MUCH = 2.5;
/** Of transmittance: as good as no light, over a stretch that no single noisy point makes. */
const FLOOR = absorbanceOf(0.02);
const FLOOR_PERCM = 20;
/** Flat: within this share of its height, over at least so much, and high. */
const FLAT_SHARE = 0.002;
const FLAT_PERCM = 12;
const FLAT_POINTS = 4;
const FLAT_FROM = 0.7;
/** A round top as flat as that falls by 0.02 shares where a cut one has its flanks. */
const FLANK_SHARE = 0.05;

/** Stretches where the band was too strong to be measured: its height and exact place are lost. */
export function saturatedIn(spectrum: InfraredSpectrum): Stretch[] {
  const { wavenumber_percm: x, absorbance: y, recordedAs } = spectrum;
  const stretches = [...above(x, y, TOO_MUCH, 0), ...cutOff(x, y)];
  if (recordedAs === 'transmittance') stretches.push(...above(x, y, FLOOR, FLOOR_PERCM));
  return joined(stretches);
}

function above(x: Float64Array, y: Float64Array, level: number, least: number): Stretch[] {
  const stretches: Stretch[] = [];
  for (let i = 0; i < x.length; i++) {
    if (y[i]! <= level) continue;
    const from = i;
    while (i + 1 < x.length && y[i + 1]! > level) i++;
    if (x[i]! - x[from]! >= least) stretches.push([x[from]!, x[i]!]);
  }
  return stretches;
}

/** Tops that are level where a band would be round, with steep flanks on both sides. */
function cutOff(x: Float64Array, y: Float64Array): Stretch[] {
  const stretches: Stretch[] = [];
  for (let i = 1; i < x.length - 1; i++) {
    const top = y[i]!;
    if (top < FLAT_FROM || y[i - 1]! >= top) continue;
    const slack = FLAT_SHARE * top;
    let last = i;
    while (last + 1 < x.length && Math.abs(y[last + 1]! - top) <= slack) last++;
    const width = x[last]! - x[i]!;
    if (last - i + 1 < FLAT_POINTS || width < FLAT_PERCM) continue;
    if (fallsBy(x, y, i, -1, width, top) && fallsBy(x, y, last, 1, width, top))
      stretches.push([x[i]!, x[last]!]);
    i = last;
  }
  return stretches;
}

/** Whether within half the width of the flat the curve falls clearly below it. */
function fallsBy(
  x: Float64Array,
  y: Float64Array,
  from: number,
  step: 1 | -1,
  width: number,
  top: number,
): boolean {
  for (let i = from + step; i >= 0 && i < x.length; i += step) {
    if (y[i]! < (1 - FLANK_SHARE) * top) return true;
    if (Math.abs(x[i]! - x[from]!) > Math.max(width / 2, 8)) return false;
  }
  return false;
}

function joined(stretches: Stretch[]): Stretch[] {
  const sorted = stretches.sort((a, b) => a[0] - b[0]);
  const all: Stretch[] = [];
  for (const [from, to] of sorted) {
    const last = all.at(-1);
    if (last !== undefined && from <= last[1] + 4)
      all[all.length - 1] = [last[0], Math.max(to, last[1])];
    else all.push([from, to]);
  }
  return all;
}
