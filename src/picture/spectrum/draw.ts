import { px } from '../../structures/svg.ts';
import { xAxis, yAxis } from './draw-axes.ts';
import { drawBandLabel, drawEnd } from './draw-names.ts';
import { drawRegion, drawShade, drawWindowLabel } from './draw-windows.ts';
import type { Pen } from './pen.ts';

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
