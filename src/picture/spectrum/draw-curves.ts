import { px } from '../../structures/svg.ts';
import { curveIn, sticksIn } from './curve.ts';
import type { Polyline } from './curve.ts';
import type { Layout } from './layout.ts';
import { dashesOf } from './pen.ts';
import type { Pen } from './pen.ts';
import type { Series } from './series.ts';

/** The line of one trace within a layout. */
export function lineOf(layout: Layout, series: Series, density = 1): Polyline {
  const { plot, axis, xOf, yOf, valueAtPx } = layout;
  const putting = {
    xOf,
    yOf,
    valueAt: valueAtPx,
    left: plot.left,
    width: plot.right - plot.left,
    falls: axis.falls,
    density,
  };
  return axis.sticks ? sticksIn(series, putting) : curveIn(series, putting);
}

/** Curves as SVG, the one that is judged on top. */
export function curves(pen: Pen): string {
  const { layout, colours, strokes, prefix } = pen;
  const drawn = layout.traces.map((trace) => {
    const series = layout.series.get(trace.id);
    if (series === undefined) return '';
    const line = lineOf(layout, series);
    const d = layout.axis.sticks ? sticksPath(line, layout) : linePath(line);
    const stroke = strokes.get(trace.id);
    return (
      `<path d="${d}" fill="none" stroke="${colours.roles[trace.role]}" ` +
      `stroke-width="${stroke?.width ?? 1.5}" stroke-linejoin="round"${dashesOf(stroke)}/>`
    );
  });
  return `<g clip-path="url(#${prefix}-plot)">${drawn.reverse().join('')}</g>`;
}

function linePath(line: Polyline): string {
  const parts: string[] = [];
  let lifted = true;
  for (let i = 0; i < line.length; i += 2) {
    const [x, y] = [line[i]!, line[i + 1]!];
    if (Number.isNaN(x)) {
      lifted = true;
      continue;
    }
    parts.push(`${lifted ? 'M' : 'L'}${px(x)} ${px(clampFar(y))}`);
    lifted = false;
  }
  return parts.join('');
}

function sticksPath(tips: Polyline, layout: Layout): string {
  const base = px(layout.heightOf(0));
  const parts: string[] = [];
  for (let i = 0; i < tips.length; i += 2)
    parts.push(`M${px(tips[i]!)} ${base}V${px(clampFar(tips[i + 1]!))}`);
  return parts.join('');
}

/** A spike far beyond the plot stays a number that every program can read. */
export const clampFar = (y: number): number => Math.min(1e5, Math.max(-1e5, y));
