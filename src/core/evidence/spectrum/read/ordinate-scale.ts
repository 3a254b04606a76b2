import type { Diagnostic } from '../../../diagnostic.ts';
import type { YUnit } from '../trace.ts';
import { note, shown, warning } from './finding.ts';

export interface Scaled {
  readonly y: Float64Array;
  readonly yUnit: YUnit;
  readonly warnings: readonly Diagnostic[];
}

/** Above this no fraction of light is: a baseline can drift to 1.5, not further. Common practice. */
const MOST_FRACTION = 1.5;
/** Below this a percent scale is not believed unless the file says percent. Common practice. */
const LEAST_PERCENT = 5;
/** No detector tells so great an absorbance from darkness. Common practice. */
const MOST_ABSORBANCE = 20;

/** Every value that is there, at most some thousand of them, in order of size. */
export function ordered(y: Float64Array): Float64Array {
  const step = Math.max(1, Math.floor(y.length / 4000));
  const finite: number[] = [];
  for (let i = 0; i < y.length; i += step) if (Number.isFinite(y[i])) finite.push(y[i]!);
  return Float64Array.from(finite).sort();
}

export const quantileOf = (sorted: Float64Array, share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;

/** A flat floor with bands that rise from it: the middle value is near the least. */
export function risesFromFloor(sorted: Float64Array): boolean {
  const [low, middle, high] = [0.02, 0.5, 0.98].map((share) => quantileOf(sorted, share));
  return middle! - low! < 0.25 * (high! - low!);
}

/** A flat ceiling with bands that hang from it: the middle value is near the greatest. */
export function hangsFromCeiling(sorted: Float64Array): boolean {
  const [low, middle, high] = [0.02, 0.5, 0.98].map((share) => quantileOf(sorted, share));
  return high! - middle! < 0.25 * (high! - low!);
}

/** 78.58 % is 0.7858, not 0.7857999…: the nearest decimal of twelve places where it is that close. */
function fractionOf(percent: number): number {
  const plain = percent / 100;
  const decimal = Math.round(percent * 1e10) / 1e12;
  return Math.abs(decimal - plain) <= 1e-15 * Math.abs(plain) ? decimal : plain;
}

const asFraction = (y: Float64Array): Float64Array => y.map(fractionOf);

function doubtOfWord(sorted: Float64Array, greatest: number): Diagnostic[] {
  if (greatest > LEAST_PERCENT || !risesFromFloor(sorted) || quantileOf(sorted, 0.5) > 0.25)
    return [];
  return [
    warning('ordinate-doubt', {
      message:
        'The file says transmittance. The values lie on a flat floor near zero with bands that rise, ' +
        'as absorbance does. The word of the file was kept.',
      hint: 'Look at the trace. If the bands point up, say that it is absorbance.',
    }),
  ];
}

/**
 * Percent or fraction, from the values: the word TRANSMITTANCE stands for both. `saysPercent` is what
 * the file's words say, undefined where they say nothing; `declared` is a mark that leaves no doubt.
 */
function transmittance(
  y: Float64Array,
  sorted: Float64Array,
  saysPercent: boolean | undefined,
): Scaled {
  // A spike or two must not decide.
  const greatest = quantileOf(sorted, 0.995);
  const isPercent = greatest > (saysPercent === true ? MOST_FRACTION : LEAST_PERCENT);
  const warnings: Diagnostic[] = [];
  if (isPercent && saysPercent === undefined)
    warnings.push(
      note('transmittance-scale', {
        message: `The values go up to ${shown(greatest)}: the transmittance was taken as percent.`,
      }),
    );
  if (isPercent && saysPercent === false)
    warnings.push(
      warning('transmittance-scale', {
        message: `The file says a fraction, and the values go up to ${shown(greatest)}. Percent was taken.`,
      }),
    );
  if (!isPercent && saysPercent === true)
    warnings.push(
      warning('transmittance-scale', {
        message: `The file says percent, and the values end at ${shown(greatest)}. A fraction was taken.`,
      }),
    );
  if (!isPercent && greatest > MOST_FRACTION)
    warnings.push(
      warning('transmittance-scale', {
        message: `The values go up to ${shown(greatest)}, too much for a fraction and little for percent. A fraction was taken.`,
        hint: 'Compare the baseline with the instrument’s own print: it should be near 100 %.',
      }),
    );
  warnings.push(...doubtOfWord(sorted, greatest));
  return { y: isPercent ? asFraction(y) : y, yUnit: 'transmittance', warnings };
}

function absorbance(y: Float64Array, sorted: Float64Array): Scaled {
  const greatest = quantileOf(sorted, 0.995);
  if (greatest <= MOST_ABSORBANCE) return { y, yUnit: 'absorbance', warnings: [] };
  const message =
    `The file says absorbance, and the values go up to ${shown(greatest)}. ` +
    'No absorbance is so great; the unit was left open.';
  const hint = hangsFromCeiling(sorted)
    ? 'The values look like transmittance in percent. If they are, say so.'
    : 'Look at the trace and say what it is.';
  return { y, yUnit: 'unknown', warnings: [warning('ordinate-doubt', { message, hint })] };
}

/** Puts transmittance on 0 to 1 and doubts words that the values contradict; else nothing is changed. */
export function scaleOrdinates(
  y: Float64Array,
  yUnit: YUnit,
  saysPercent: boolean | undefined,
  isDeclared: boolean,
): Scaled {
  if (
    isDeclared ||
    (yUnit !== 'transmittance' && yUnit !== 'absorbance' && yUnit !== 'reflectance')
  )
    return { y, yUnit, warnings: [] };
  const sorted = ordered(y);
  if (sorted.length === 0) return { y, yUnit, warnings: [] };
  if (yUnit === 'transmittance') return transmittance(y, sorted, saysPercent);
  if (yUnit === 'absorbance') return absorbance(y, sorted);
  return { y, yUnit, warnings: [] };
}
