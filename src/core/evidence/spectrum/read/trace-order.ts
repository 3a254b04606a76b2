import type { Diagnostic } from '../../../diagnostic.ts';
import { note, warning } from './finding.ts';

export interface Ordered {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly warnings: readonly Diagnostic[];
}

type Direction = 'rises' | 'falls' | 'neither';

function directionOf(x: Float64Array): { direction: Direction; repeats: boolean } {
  let [up, down, same] = [0, 0, 0];
  for (let i = 1; i < x.length; i++) {
    if (x[i]! > x[i - 1]!) up++;
    else if (x[i]! < x[i - 1]!) down++;
    else same++;
  }
  const direction = down === 0 ? 'rises' : up === 0 ? 'falls' : 'neither';
  return { direction, repeats: same > 0 };
}

/** The first of several values at one x is kept. */
function withoutRepeats(x: Float64Array, y: Float64Array): { x: Float64Array; y: Float64Array } {
  const keep: number[] = [];
  for (let i = 0; i < x.length; i++) if (i === 0 || x[i] !== x[i - 1]) keep.push(i);
  return { x: Float64Array.from(keep, (i) => x[i]!), y: Float64Array.from(keep, (i) => y[i]!) };
}

/**
 * x rising, y going along. A curve that runs back and forth is sorted and said; of several values at
 * one x of a curve the first in the file is kept, and said. Peaks keep them all.
 */
export function inOrder(x: Float64Array, y: Float64Array, isCurve: boolean): Ordered {
  const { direction, repeats } = directionOf(x);
  const warnings: Diagnostic[] = [];
  let [xs, ys] = [x, y];
  if (direction === 'falls' && !repeats) [xs, ys] = [x.toReversed(), y.toReversed()];
  else if (direction !== 'rises') {
    const order = Uint32Array.from(x, (_, i) => i).sort((a, b) => x[a]! - x[b]! || a - b);
    xs = Float64Array.from(order, (i) => x[i]!);
    ys = Float64Array.from(order, (i) => y[i]!);
    if (isCurve && direction === 'neither')
      warnings.push(
        warning('x-unsorted', {
          message: 'The points do not stand in the order of x. They were put in order.',
          hint: 'Look at the trace: two spectra in one table also look like this.',
        }),
      );
  }
  if (!isCurve || (!repeats && direction !== 'neither')) return { x: xs, y: ys, warnings };
  const single = withoutRepeats(xs, ys);
  const left = xs.length - single.x.length;
  if (left > 0)
    warnings.push(
      note('x-repeated', {
        message: `${left === 1 ? 'One x stands' : `${left} x stand`} there more than once. The first value of each was kept.`,
      }),
    );
  return { ...single, warnings };
}
