import type { MeasuredTrace } from '../spectrum/trace.ts';
import type { MassPeak } from './schema.ts';

/** The largest number of peaks that is kept, the strongest first. */
const MOST_PEAKS = 2000;

/**
 * The peaks of a file: a table of peaks as it is, a curve by its local maxima. In order of m/z.
 */
export function peaksOfTrace(trace: MeasuredTrace): MassPeak[] {
  const all: MassPeak[] = [];
  const { x, y } = trace;
  x.forEach((mz, i) => {
    const intensity = y[i] ?? Number.NaN;
    if (!Number.isFinite(mz) || mz <= 0 || !(intensity > 0)) return;
    const summit = intensity > (y[i - 1] ?? 0) && intensity >= (y[i + 1] ?? 0);
    if (trace.kind === 'peaks' || summit) all.push({ mz, intensity });
  });
  return all
    .sort((a, b) => b.intensity - a.intensity)
    .slice(0, MOST_PEAKS)
    .sort((a, b) => a.mz - b.mz);
}
