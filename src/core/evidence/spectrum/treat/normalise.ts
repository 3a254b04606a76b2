import { indexAt } from './order.ts';

/** What is made 1: the highest point, the area, the root of the summed squares, or one band's top. */
export type Norm =
  | { readonly kind: 'highest' }
  | { readonly kind: 'area' }
  | { readonly kind: 'vector' }
  | { readonly kind: 'band'; readonly from_percm: number; readonly to_percm: number };

function sizeOf(x: Float64Array, y: Float64Array, norm: Norm): number {
  const [from, to] = norm.kind === 'band' ? [norm.from_percm, norm.to_percm] : [x[0]!, x.at(-1)!];
  return SIZES[norm.kind](x, y, from, to);
}

type Size = (x: Float64Array, y: Float64Array, from: number, to: number) => number;

const highest: Size = (x, y, from, to) => {
  let most = 0;
  for (let i = indexAt(x, from); i < x.length && x[i]! <= to; i++) most = Math.max(most, y[i]!);
  return most;
};

const SIZES: Record<Norm['kind'], Size> = {
  highest,
  band: highest,
  area: (x, y) => {
    let area = 0;
    for (let i = 1; i < x.length; i++)
      area += ((Math.abs(y[i]!) + Math.abs(y[i - 1]!)) / 2) * (x[i]! - x[i - 1]!);
    return area;
  },
  vector: (_x, y) => Math.sqrt(y.reduce((sum, each) => sum + each * each, 0)),
};

/**
 * y divided by its size, and the size. Take the baseline off first. Where the size is nought the
 * curve comes back as it is, with a size of 0.
 */
export function normalise(
  x: Float64Array,
  y: Float64Array,
  norm: Norm = { kind: 'highest' },
): { readonly y: Float64Array; readonly size: number } {
  const size = sizeOf(x, y, norm);
  return size > 0
    ? { y: y.map((each) => each / size), size }
    : { y: Float64Array.from(y), size: 0 };
}
