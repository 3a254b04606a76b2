import { escapeXml, px } from '../../structures/svg.ts';
import { PAGE_COLOURS } from '../page-colours.ts';
import type { PageColours } from '../page-colours.ts';
import { drawLabel } from '../text/label.ts';
import { textWidth, wrapWithin } from '../text/measure.ts';

/** One source of uncertainty. */
export interface BudgetDot {
  readonly what: string;
  /** Of the variance, 0 to 1. */
  readonly share: number;
  /** "39 %". */
  readonly text: string;
  /** Filled: measured with a known instrument; ring: taken as written, guessed, or from a table. */
  readonly measured: boolean;
}

export interface BudgetPictureOptions {
  readonly width: number;
  /** What is read where the picture cannot be seen. */
  readonly label: string;
  readonly colours?: PageColours;
}

const SIZE = 15;
const NARROW_BELOW = 560;
const PITCH = 34;
const PITCH_NARROW = 52;
const RADIUS = 6;

/** Shares of the variance as dots on one scale from 0 to 100 %, each with its name and number. */
export function budgetPicture(dots: readonly BudgetDot[], options: BudgetPictureOptions): string {
  const { width, label, colours = PAGE_COLOURS } = options;
  const narrow = width < NARROW_BELOW;
  const names = Math.max(0, ...dots.map(({ what }) => textWidth(what, { size: SIZE })));
  const left = narrow ? 0 : Math.min(width * 0.5, names + 20);
  const room = Math.max(60, width - left - (narrow ? 60 : 70) - RADIUS);
  const pitch = narrow ? PITCH_NARROW : PITCH;
  const height = dots.length * pitch;
  const rows = dots.map((dot, i) => {
    const y = i * pitch + (narrow ? 36 : PITCH / 2);
    const from = left + RADIUS;
    const x = from + dot.share * room;
    const name = wrapWithin(dot.what, narrow ? width : left - 12, 1, { size: SIZE })[0] ?? '';
    return [
      drawLabel({
        text: name,
        x: 0,
        y: narrow ? i * pitch + 18 : y + 5,
        size: SIZE,
        fill: colours.ink,
        italic: !dot.measured,
      }),
      `<path d="M${px(from)} ${px(y)}H${px(from + room)}" stroke="${colours.hairline}" stroke-width="1"/>`,
      `<path d="M${px(from)} ${px(y)}H${px(x)}" stroke="${colours.ink}" stroke-width="2"${dot.measured ? '' : ' stroke-dasharray="5 3"'}/>`,
      `<path d="M${px(from)} ${px(y - 5)}V${px(y + 5)}" stroke="${colours.edge}" stroke-width="1"/>`,
      `<circle cx="${px(x)}" cy="${px(y)}" r="${RADIUS}" fill="${dot.measured ? colours.ink : colours.paper}" stroke="${colours.ink}" stroke-width="2"/>`,
      drawLabel({
        text: dot.text,
        x: x + RADIUS + 7,
        y: y + 5,
        size: SIZE,
        fill: colours.ink,
        weight: 600,
        over: colours.paper,
      }),
    ].join('');
  });
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${px(width)}" height="${px(height)}" ` +
    `viewBox="0 0 ${px(width)} ${px(height)}" role="img" aria-label="${escapeXml(label)}">${rows.join('')}</svg>`
  );
}
