import { escapeXml, px } from '../../structures/svg.ts';
import { drawLabel } from '../text/label.ts';
import { textWidth } from '../text/measure.ts';
import { axisTitle } from './axis.ts';
import { LABEL_SIZE } from './band-labels.ts';
import type { PlacedLabel } from './band-labels.ts';
import type { SpectrumColours } from './colours.ts';
import { LANE } from './layout.ts';
import type { Layout } from './layout.ts';
import type { TraceShown, Verdict } from './spectrum-view.ts';
import type { Stroke } from './strokes.ts';
import { WINDOW_SIZE } from './window-lanes.ts';
import type { PlacedWindow } from './window-lanes.ts';

export interface Pen {
  readonly layout: Layout;
  readonly colours: SpectrumColours;
  /** Before every id, so that several pictures can share a page. */
  readonly prefix: string;
  readonly strokes: ReadonlyMap<string, Stroke>;
}

const SMALL = 13;

const path = (d: string, stroke: string, width: number, rest = '') =>
  `<path d="${d}" stroke="${stroke}" stroke-width="${width}" fill="none"${rest}/>`;

/** Seen is hatched, what cannot be told dotted, what is not seen empty; a stretch not judged ruled. */
export function definitions({ colours, prefix, layout }: Pen): string {
  const { left, right, top, bottom } = layout.plot;
  const pattern = (name: string, size: number, content: string, turn = '') =>
    `<pattern id="${prefix}-${name}" width="${size}" height="${size}" patternUnits="userSpaceOnUse"${turn}>${content}</pattern>`;
  const turned = ' patternTransform="rotate(45)"';
  const stripe = (colour: string) => `<path d="M0 0V6" stroke="${colour}" stroke-width="1.6"/>`;
  const dot = (colour: string) => `<circle cx="2.5" cy="2.5" r="1" fill="${colour}"/>`;
  return (
    `<clipPath id="${prefix}-plot"><rect x="${px(left)}" y="${px(top - 1)}" width="${px(right - left)}" height="${px(bottom - top + 2)}"/></clipPath>` +
    pattern('present', 6, stripe(colours.life), turned) +
    pattern('cannotTell', 5, dot(colours.edge)) +
    pattern('present-bar', 6, stripe(colours.ink), turned) +
    pattern('cannotTell-bar', 5, dot(colours.ink)) +
    pattern('region', 5, `<path d="M0 2.5H5" stroke="${colours.hairline}" stroke-width="1.4"/>`)
  );
}

/** Everything but the curves: what lies under them and around them. */
export function surroundings(pen: Pen): string {
  const { layout } = pen;
  return (
    layout.regions.map((region) => drawRegion(region, pen)).join('') +
    layout.windows.map((window) => drawShade(window, pen)).join('') +
    yAxis(pen) +
    xAxis(pen) +
    layout.windows.map((window) => drawWindowLabel(window, pen)).join('') +
    layout.labels.map((label) => drawBandLabel(label, pen)).join('') +
    layout.ends.map((end) => drawEnd(end, pen)).join('')
  );
}

function drawRegion({ left, right, label }: Layout['regions'][number], pen: Pen): string {
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

function drawShade({ window, left, right, lane }: PlacedWindow, { layout, colours, prefix }: Pen) {
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
function drawWindowLabel(placed: PlacedWindow, { layout, colours, prefix }: Pen): string {
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

function yAxis({ layout, colours }: Pen): string {
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

function xAxis({ layout, colours }: Pen): string {
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

/** Its position beyond the plot, and a hairline from the band to it. */
function drawBandLabel(label: PlacedLabel, { layout, colours }: Pen): string {
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
function drawEnd({ trace, from, y }: Layout['ends'][number], pen: Pen): string {
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

export function dashesOf(stroke: Stroke | undefined): string {
  return stroke === undefined || stroke.dashes.length === 0
    ? ''
    : ` stroke-dasharray="${stroke.dashes.join(' ')}"`;
}

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

export const titled = (id: string, tag: 'title' | 'desc', text: string) =>
  `<${tag} id="${id}">${escapeXml(text)}</${tag}>`;
