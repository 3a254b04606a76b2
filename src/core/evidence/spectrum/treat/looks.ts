import { bendOf } from './bend.ts';
import { indexAt, medianOf, quantileOf, stepsOf } from './order.ts';

/** What the bare values look like, whatever the label says. */
export interface Looks {
  /** Absent where nothing is plain. */
  readonly bandsPoint?: 'up' | 'down';
  /** Set only where direction and range both speak for it. */
  readonly seems?: 'absorbance' | 'transmittance';
  /** Transmittance that must be percent. */
  readonly percent: boolean;
}

/** Bands bend a curve sharply on one side only; skewness of the bend beyond this is plain. */
const PLAIN = 0.7;
/** Hardly any molecule absorbs here: it is near the baseline, however strong the rest. */
const QUIET = { low_percm: 1900, high_percm: 2600 };
/** The baseline lies in this part of the range of the values, at the bottom or at the top. */
const BY_THE_END = 0.3;

/**
 * Bands are narrow: at their tops the second derivative is large, in between small and of the
 * other sign. Its skewness therefore tells which way they point, whatever slope lies below. The
 * level of the quiet stretch tells too, even of a sample that lets hardly any light through
 * elsewhere.
 */
export function looksOf(x: Float64Array, y: Float64Array): Looks {
  const sorted = Float64Array.from(y).sort();
  const low = quantileOf(sorted, 0.02);
  const high = quantileOf(sorted, 0.98);
  const percent = high > 3 && quantileOf(sorted, 0.5) > 1.5;
  const reach = Math.max(6, 2 * medianOf(stepsOf(x)));
  const upward = (values: Float64Array): number => -skewnessOf(bendOf(x, values, reach, 2).second);
  const bend = upward(y);
  const level = (baselineLevel(x, y, sorted) - low) / Math.max(1e-12, high - low);
  const bandsPoint: Looks['bandsPoint'] = bend > PLAIN ? 'up' : bend < -PLAIN ? 'down' : undefined;
  const base = { percent, ...(bandsPoint === undefined ? {} : { bandsPoint }) };
  if (
    bandsPoint !== 'up' &&
    level > 1 - BY_THE_END &&
    couldBeTransmittance(low, high, percent) &&
    // Strong bands of transmittance have flat floors and point nowhere; as absorbance they do
    upward(y.map((each) => -Math.log10(Math.max(1e-3, percent ? each / 100 : each)))) > PLAIN
  )
    return { ...base, seems: 'transmittance' };
  if (bandsPoint === 'up' && level < BY_THE_END && high < 10)
    return { ...base, seems: 'absorbance' };
  return base;
}

/** The median of the quiet stretch; of everything where the spectrum does not reach there. */
function baselineLevel(x: Float64Array, y: Float64Array, sorted: Float64Array): number {
  const quiet = y.subarray(indexAt(x, QUIET.low_percm), indexAt(x, QUIET.high_percm));
  return quiet.length < 10 ? quantileOf(sorted, 0.5) : medianOf(quiet);
}

/** From somewhere above nought to near one; a baseline of ATR may rise to 1.2. */
function couldBeTransmittance(low: number, high: number, percent: boolean): boolean {
  const scale = percent ? 100 : 1;
  return low > -0.05 * scale && high > 0.3 * scale && high < 1.3 * scale;
}

/** Third moment over the cube of the standard deviation. */
function skewnessOf(values: Float64Array): number {
  const n = values.length;
  let mean = 0;
  for (const value of values) mean += value / n;
  let [second, third] = [0, 0];
  for (const value of values) {
    const d = value - mean;
    second += (d * d) / n;
    third += (d * d * d) / n;
  }
  return second > 0 ? third / second ** 1.5 : 0;
}
