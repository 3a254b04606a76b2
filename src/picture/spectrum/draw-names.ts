import { px } from '../../structures/svg.ts';
import { drawLabel } from '../text/label.ts';
import { textWidth } from '../text/measure.ts';
import { LABEL_SIZE } from './band-labels.ts';
import type { PlacedLabel } from './band-labels.ts';
import type { Layout } from './layout.ts';
import { dashesOf, path, SMALL } from './pen.ts';
import type { Pen } from './pen.ts';
import type { TraceShown } from './spectrum-view.ts';

/** Its position beyond the plot, and a hairline from the band to it. */
export function drawBandLabel(label: PlacedLabel, { layout, colours }: Pen): string {
  const { plot, heights, tips } = layout;
  const { x, middle, tier, text, selected } = label;
  const tip = tips.get(label.id) ?? plot.top;
  const way = heights.down ? 1 : -1;
  const edge = heights.down ? plot.bottom : plot.top;
  const near = edge + way * (17 + tier * 18);
  const start = heights.down ? Math.min(tip + 4, edge) : Math.max(tip - 4, edge);
  const bent =
    Math.abs(middle - x) > 0.5 ? `V${px(edge + way * 3)}L${px(middle)} ${px(edge + way * 12)}` : '';
  const colour = selected ? colours.accent : colours.edge;
  const within = `M${px(x)} ${px(start)}V${px(edge)}`;
  return (
    path(within, colour, selected ? 1.5 : 1, selected ? '' : ' stroke-dasharray="1 3"') +
    path(`M${px(x)} ${px(edge)}${bent}V${px(near)}`, colour, selected ? 1.5 : 1) +
    drawLabel({
      text,
      x: middle,
      y: heights.down ? near + 11.5 : near - 2.5,
      size: LABEL_SIZE,
      fill: selected ? colours.accent : colours.ink,
      anchor: 'middle',
      ...(selected ? { weight: 700 } : {}),
    })
  );
}

/** A hairline from the curve, a sample of its line, its name. */
export function drawEnd({ trace, from, y }: Layout['ends'][number], pen: Pen): string {
  const { layout, colours } = pen;
  const { right } = layout.plot;
  return (
    path(`M${px(right + 1)} ${px(from)}L${px(right + 10)} ${px(y)}`, colours.edge, 1) +
    path(
      `M${px(right + 12)} ${px(y)}h${SAMPLE}`,
      colours.roles[trace.role],
      1.6,
      dashesOf(pen.strokes.get(trace.id)),
    ) +
    drawLabel({
      text: trace.label,
      x: right + 12 + SAMPLE + 6,
      y: y + 4.5,
      size: SMALL,
      fill: colours.ink,
    })
  );
}

/** Long enough for the longest pattern to be told. */
const SAMPLE = 32;

/** A sample of each line with the name of its trace: what stands for names beside the curves where it is narrow. */
export function key(pen: Pen, top: number): string {
  return keyPlaces(pen.layout.traces, pen.layout.width)
    .map(({ trace, x, line }) => {
      const y = top + line * KEY_LINE;
      const dashes = dashesOf(pen.strokes.get(trace.id));
      return (
        path(`M${px(x)} ${px(y - 4)}h${SAMPLE}`, pen.colours.roles[trace.role], 1.5, dashes) +
        drawLabel({ text: trace.label, x: x + SAMPLE + 6, y, size: SMALL, fill: pen.colours.ink })
      );
    })
    .join('');
}

export const KEY_LINE = 22;

export function keyPlaces(traces: readonly TraceShown[], width: number) {
  let [x, line] = [0, 0];
  return traces.map((trace) => {
    const needs = SAMPLE + 6 + textWidth(trace.label, { size: SMALL });
    if (x > 0 && x + needs > width) [x, line] = [0, line + 1];
    const place = { trace, x, line };
    x += needs + 18;
    return place;
  });
}
