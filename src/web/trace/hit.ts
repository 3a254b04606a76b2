import { LABEL_SIZE } from '../../picture/spectrum/band-labels.ts';
import { barOf } from '../../picture/spectrum/draw-windows.ts';
import type { Layout } from '../../picture/spectrum/layout.ts';

export type Hit = { readonly kind: 'band' | 'window'; readonly id: string };

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const holds = ({ left, right, top, bottom }: Box, x: number, y: number, by: number) =>
  x >= left - by && x <= right + by && y >= top - by && y <= bottom + by;

/** What stands where somebody points: the number of a band, the name of a window, or its shade. */
export function hitAt(layout: Layout, x: number, y: number, by = 2): Hit | undefined {
  const { plot, heights, labels, windows } = layout;
  const label = labels.find(({ middle, width, tier }) => {
    const near = heights.down ? plot.bottom + 17 + tier * 18 : plot.top - 17 - tier * 18;
    const [top, bottom] = heights.down ? [near, near + LABEL_SIZE] : [near - LABEL_SIZE, near];
    return holds({ left: middle - width / 2, right: middle + width / 2, top, bottom }, x, y, by);
  });
  if (label !== undefined) return { kind: 'band', id: label.id };
  const named = windows.find(({ left, right, labelX, labelWidth, lane }) => {
    if (lane < 0) return false;
    const bar = barOf(layout, lane);
    return (
      holds({ left, right, top: bar - 4, bottom: bar + 8 }, x, y, by) ||
      holds({ left: labelX, right: labelX + labelWidth, top: bar - 18, bottom: bar }, x, y, 0)
    );
  });
  if (named !== undefined) return { kind: 'window', id: named.window.id };
  if (y < plot.top || y > plot.bottom) return undefined;
  return windowAt(layout, x);
}

/** The narrowest window that a place lies in. */
export function windowAt({ windows }: Layout, x: number): Hit | undefined {
  const [first] = windows
    .filter(({ left, right }) => x >= left && x <= right)
    .sort((a, b) => a.right - a.left - (b.right - b.left));
  return first && { kind: 'window', id: first.window.id };
}
