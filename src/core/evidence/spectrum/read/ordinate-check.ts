import type { Diagnostic } from '../../../diagnostic.ts';
import { shown, warning } from './finding.ts';
import { headerNumber, type Written } from './number-scan.ts';

interface Extent {
  readonly min: number;
  readonly max: number;
}

/** Least and greatest of the values that are there. */
export function extentOf(values: Float64Array): Extent {
  let [min, max] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (value < min) min = value;
    if (value > max) max = value;
  }
  return { min, max };
}

/** A header may round to its figures, and to a thousandth of the whole height: common practice. */
const agrees = (said: Written, value: number, height: number): boolean =>
  Math.abs(said.value - value) <= said.unit + 1e-3 * height + 1e-6 * Math.abs(value);

function firstOrdinate(said: Written, first: number, written: number, line: number): Diagnostic {
  const factor = said.value / first;
  const isUnscaled = Math.abs(said.value - written) <= said.unit;
  return warning('file-first-ordinate', {
    message: isUnscaled
      ? `FIRSTY says ${shown(said.value)}, which is the first value before YFACTOR is put on.`
      : `FIRSTY says ${shown(said.value)}, the first value is ${shown(first)}` +
        `${Number.isFinite(factor) && factor > 0 ? ` (${factor.toPrecision(3)} times)` : ''}. ` +
        'The heights may be wrong by a factor; positions are not touched.',
    ...(isUnscaled ? {} : { hint: 'Compare one height with the instrument’s own print.' }),
    line,
  });
}

/** FIRSTY, MAXY and MINY against the values, which are in the units of the file. */
export function ordinateWarnings(
  headers: Readonly<Record<string, string>>,
  values: Float64Array,
  factor: number,
  line: number,
): Diagnostic[] {
  const { min, max } = extentOf(values);
  const height = max - min;
  const first = values[0];
  const warnings: Diagnostic[] = [];
  if (first === undefined || !Number.isFinite(height)) return warnings;
  const said = headerNumber(headers['FIRSTY']);
  if (said !== undefined && Number.isFinite(first) && !agrees(said, first, height))
    warnings.push(firstOrdinate(said, first, first / factor, line));
  for (const [label, value] of [
    ['MAXY', max],
    ['MINY', min],
  ] as const) {
    const limit = headerNumber(headers[label]);
    if (limit === undefined || agrees(limit, value, height)) continue;
    const message = `${label} says ${shown(limit.value)}, the values give ${shown(value)}.`;
    warnings.push(warning('file-range-header', { message, line }));
  }
  return warnings;
}
