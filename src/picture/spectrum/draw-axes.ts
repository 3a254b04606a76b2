import { px } from '../../structures/svg.ts';
import { drawLabel } from '../text/label.ts';
import { axisTitle } from './axis.ts';
import type { Layout } from './layout.ts';
import { path, SMALL } from './pen.ts';
import type { Pen } from './pen.ts';

/** Lines across the plot with their numbers, and what they are of. */
export function yAxis({ layout, colours }: Pen): string {
  const { axis, heights, plot, frame, yTicks, heightOf } = layout;
  if (axis.bare) return '';
  const lines = yTicks.map(({ value, text }) => {
    const y = heightOf(value);
    return (
      path(`M${px(plot.left)} ${px(y)}H${px(plot.right)}`, colours.hairline, 1) +
      drawLabel({
        text,
        x: plot.left - 8,
        y: y + 4.5,
        size: SMALL,
        fill: colours.quiet,
        anchor: 'end',
      })
    );
  });
  const title = drawLabel({
    text: axisTitle(heights),
    x: 0,
    y: frame.top - 13,
    size: 12.5,
    fill: colours.quiet,
    over: colours.paper,
  });
  return lines.join('') + title;
}

/** The line that the plot stands on, its ticks, and where the scale changes. */
export function xAxis({ layout, colours }: Pen): string {
  const { frame, xTicks, axis, scale, stretch } = layout;
  const y = frame.bottom;
  const ticks = xTicks.map(({ x, text, minor }) =>
    minor
      ? path(`M${px(x)} ${px(y)}v3`, colours.edge, 1)
      : path(`M${px(x)} ${px(y)}v6`, colours.ink, 1) +
        drawLabel({
          text,
          x,
          y: y + 20,
          size: SMALL,
          fill: colours.ink,
          anchor: 'middle',
        }),
  );
  const at = scale.split === undefined ? undefined : layout.xOf(scale.split);
  const changes =
    at !== undefined &&
    scale.placeOf(scale.split!) > stretch.from &&
    scale.placeOf(scale.split!) < stretch.to;
  const mark = changes
    ? path(`M${px(at)} ${px(layout.plot.top)}V${px(y)}`, colours.edge, 1, ' stroke-dasharray="1 4"')
    : '';
  const title = axisTitle(axis) + (changes ? `, scale changes at ${scale.split}` : '');
  return (
    mark +
    path(`M${px(frame.left)} ${px(y)}H${px(frame.right)}`, colours.ink, 1.25) +
    ticks.join('') +
    drawLabel({
      text: title,
      x: frame.right,
      y: y + 39,
      size: 12.5,
      fill: colours.quiet,
      anchor: 'end',
    }) +
    notNumbered(layout, colours.quiet)
  );
}

/** Bands that have no number for want of room are not passed over in silence. */
function notNumbered({ unlabelled, narrow, frame }: Layout, fill: string): string {
  if (unlabelled === 0) return '';
  const bands = `${unlabelled} weaker band${unlabelled === 1 ? '' : 's'}`;
  const text = narrow ? `+ ${unlabelled}` : `${bands} without a number`;
  return drawLabel({ text, x: frame.left, y: frame.bottom + 39, size: 12.5, fill });
}
