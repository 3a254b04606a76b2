import { px } from '../../structures/svg.ts';
import { drawLabel } from '../text/label.ts';
import { LANE } from './layout.ts';
import type { Layout } from './layout.ts';
import { path } from './pen.ts';
import type { Pen } from './pen.ts';
import type { Verdict } from './spectrum-view.ts';
import { WINDOW_SIZE } from './window-lanes.ts';
import type { PlacedWindow } from './window-lanes.ts';

/** A stretch that is not judged: ruled, with the reason. */
export function drawRegion({ left, right, label }: Layout['regions'][number], pen: Pen): string {
  const { layout, colours, prefix } = pen;
  const { top, bottom } = layout.plot;
  return (
    `<rect x="${px(left)}" y="${px(top)}" width="${px(right - left)}" height="${px(bottom - top)}" fill="url(#${prefix}-region)"/>` +
    drawLabel({
      text: label,
      x: Math.min(Math.max((left + right) / 2, layout.plot.left + 24), layout.plot.right - 24),
      y: layout.heights.down ? bottom - 6 : top + 14,
      size: 12,
      fill: colours.quiet,
      anchor: 'middle',
      italic: true,
      over: colours.paper,
    })
  );
}

const FILLED: Readonly<Record<Verdict, boolean>> = {
  present: true,
  absent: false,
  cannotTell: true,
};

/** Top of the bar of a window in a lane. */
export const barOf = ({ frame }: Layout, lane: number): number => frame.top - 40 - lane * LANE;

export function drawShade(
  { window, left, right, lane }: PlacedWindow,
  { layout, colours, prefix }: Pen,
) {
  const { top, bottom } = layout.plot;
  const chosen = window.selected === true;
  // From its bar down, so that a bar in a higher lane is seen to belong to its shade.
  const over = lane < 0 ? top : barOf(layout, lane) + 6;
  const edge = chosen ? colours.accent : colours.life;
  const sides = path(
    `M${px(left)} ${px(over)}V${px(bottom)}M${px(right)} ${px(over)}V${px(bottom)}`,
    edge,
    chosen ? 1.5 : 1,
    window.verdict === 'absent' ? ' stroke-dasharray="4 3"' : '',
  );
  if (!FILLED[window.verdict]) return sides;
  return (
    `<rect x="${px(left)}" y="${px(top)}" width="${px(right - left)}" height="${px(bottom - top)}" fill="url(#${prefix}-${window.verdict})" opacity="0.55"/>` +
    sides
  );
}

/** Its name over a bar as wide as the window, both over the plot. */
export function drawWindowLabel(placed: PlacedWindow, { layout, colours, prefix }: Pen): string {
  const { window, left, right, label, labelX, lane } = placed;
  if (lane < 0) return '';
  const chosen = window.selected === true;
  const colour = chosen ? colours.accent : colours.ink;
  const bar = barOf(layout, lane);
  const fill = FILLED[window.verdict] ? `url(#${prefix}-${window.verdict}-bar)` : 'none';
  const dashes = window.verdict === 'absent' ? ' stroke-dasharray="4 2.5"' : '';
  return (
    `<rect x="${px(left)}" y="${px(bar)}" width="${px(right - left)}" height="6" fill="${fill}" stroke="${colour}" stroke-width="${chosen ? 1.6 : 1}"${dashes}/>` +
    drawLabel({
      text: label,
      x: labelX,
      y: bar - 5,
      size: WINDOW_SIZE,
      fill: colour,
      over: colours.paper,
      ...(chosen ? { weight: 700 } : {}),
    })
  );
}
