import type { Axis } from './axis.ts';

/** `even`: one scale. `split`: below the axis' own mark units take twice the room of those above. */
export type ScaleKind = 'even' | 'split';

/**
 * Places along the picture, before they are px: they rise to the right and are in units of the
 * stretched side, so that zooming and panning need not know which way the axis runs.
 */
export interface XScale {
  readonly placeOf: (x: number) => number;
  readonly valueAt: (place: number) => number;
  /** Where the scale changes, if it does. */
  readonly split?: number;
}

/** What is seen of a scale: the places at the left and at the right edge. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

const PACE = 2;

export function xScale({ falls, split }: Axis, kind: ScaleKind): XScale {
  const way = falls ? -1 : 1;
  if (kind === 'even' || split === undefined)
    return { placeOf: (x) => way * x, valueAt: (place) => way * place };
  return {
    placeOf: (x) => way * (x <= split ? x : split + (x - split) / PACE),
    valueAt: (place) => {
      const along = way * place;
      return along <= split ? along : split + (along - split) * PACE;
    },
    split,
  };
}

/** The whole of a range. */
export function stretchOf(
  scale: XScale,
  range: { readonly low: number; readonly high: number },
): Stretch {
  const [a, b] = [scale.placeOf(range.low), scale.placeOf(range.high)];
  return { from: Math.min(a, b), to: Math.max(a, b) };
}

/** The values at the edges of a stretch, the lower first. */
export function valuesIn(
  scale: XScale,
  { from, to }: Stretch,
): readonly [low: number, high: number] {
  const [a, b] = [scale.valueAt(from), scale.valueAt(to)];
  return a < b ? [a, b] : [b, a];
}
