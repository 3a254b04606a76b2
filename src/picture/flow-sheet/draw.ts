import type { Basis } from '../../core/ledger/posting.ts';
import { escapeXml, px } from '../../structures/svg.ts';
import { drawGlass } from './draw-glass.ts';
import type { Tail, Words } from './items.ts';
import type { LifeBar } from './layout.ts';
import type { PlacedSample, Sample } from './legend.ts';
import type { Paint } from './paint.ts';
import type { PlacedRow } from './row.ts';
import type { Sheet } from './sheet.ts';

export interface Painting {
  readonly paint: Paint;
  /** Before every id. */
  readonly prefix: string;
}

const INK: Readonly<Record<Words['ink'], (paint: Paint) => string>> = {
  ink: () => '',
  quiet: ({ colour }) => ` ${colour({ fill: 'quiet' })}`,
  accent: ({ colour }) => ` ${colour({ fill: 'accent' })}`,
  number: ({ number }) => number,
};

function drawWord(words: Words, paint: Paint): string {
  const { x, y, text, anchor, tails } = words;
  const place = `x="${px(x)}" y="${px(y)}"${anchor === 'start' ? '' : ` text-anchor="${anchor}"`}`;
  const style = styleOf(words, paint);
  if (tails === undefined) return `<text ${place} ${style}>${escapeXml(text)}</text>`;
  // Each with its own style, as an underline would run on through what stands inside it
  const first = `<tspan ${style}>${escapeXml(text)}</tspan>`;
  const rest = tails.map(
    (tail) => `<tspan dx="${tail.gap}" ${styleOf(tail, paint)}>${escapeXml(tail.text)}</tspan>`,
  );
  return `<text ${place}>${first}${rest.join('')}</text>`;
}

const styleOf = ({ size, bold, italic, underlined, ink }: Words | Tail, paint: Paint) =>
  [
    `font-size="${size}"`,
    bold === true ? ' font-weight="700"' : '',
    italic === true ? ' font-style="italic"' : '',
    underlined === true ? ' text-decoration="underline"' : '',
    INK[ink](paint),
  ].join('');

export const drawWords = (words: readonly Words[], paint: Paint) =>
  words.map((each) => drawWord(each, paint)).join('');

const STROKE: Readonly<Record<Basis, string>> = {
  planned: 'stroke-width="1.3"',
  measured: 'stroke-width="2.2"',
  assumed: 'stroke-width="1.3" stroke-dasharray="4 3"',
};

interface Stroke {
  readonly x1: number;
  readonly x2: number;
  readonly y: number;
  readonly basis: Basis;
  readonly gas: boolean;
}

const HEAD = 8;

/** A full head for what is poured, an open one for what goes as a gas. */
function drawArrow({ x1, x2, y, basis, gas }: Stroke, { colour }: Paint): string {
  const way = x2 < x1 ? -1 : 1;
  const back = x2 - way * HEAD;
  const end = gas ? x2 - way : back;
  const head = `M${px(back)} ${px(y - 4)}L${px(x2)} ${px(y)}L${px(back)} ${px(y + 4)}`;
  const ink = colour({ stroke: 'ink' });
  const tip = gas
    ? `<path d="${head}" fill="none" ${ink} stroke-width="1.3"/>`
    : `<path d="${head}Z" ${colour({ fill: 'ink' })}/>`;
  return `<path d="M${px(x1)} ${px(y)}H${px(end)}" ${ink} fill="none" ${STROKE[basis]}/>${tip}`;
}

const BAR = 7;

/** A bar from 0 down. */
export function drawBar({ x, height, ends }: LifeBar, { colour }: Paint): string {
  const shape = (y: number, length: number) =>
    `<rect x="${px(x - BAR / 2)}" y="${px(y)}" width="${BAR}" height="${px(length)}" rx="3.5" ${colour({ fill: 'life' })}/>`;
  if (ends === 'emptied') return shape(0, height);
  // Still full where the sheet ends: the bar runs out in dots
  const dots = [0, 9].map((step) => shape(height - 18 + step, 5));
  return shape(0, Math.max(6, height - 22)) + dots.join('');
}

export function drawRule(y: number, heavy: boolean, { edges }: Sheet, { colour }: Paint): string {
  const stroke = colour({ stroke: heavy ? 'quiet' : 'hairline' });
  const width = heavy ? ' stroke-width=".9"' : '';
  return `<path d="M${px(edges.margin)} ${px(y)}H${px(edges.right)}" ${stroke}${width}/>`;
}

/** Round the selected row, which begins at 0. */
export function drawFrame({ top, bottom }: PlacedRow, { edges }: Sheet, paint: Paint): string {
  const { margin, right, frameGap: gap } = edges;
  return (
    `<rect x="${px(margin - gap)}" y="${px(top + 1)}" width="${px(right - margin + 2 * gap)}" ` +
    `height="${px(bottom - top - 2)}" rx="7" ${paint.colour({ fill: 'selected', stroke: 'accent' })} ` +
    `stroke-width="${paint.frame_px}"/>`
  );
}

export function drawRow(row: PlacedRow, sheet: Sheet, { paint, prefix }: Painting): string {
  const glass = row.standings.map(({ state, ...place }) =>
    drawGlass(state, sheet.glasses.get(state.vessel)!, place, paint, prefix),
  );
  const lines = row.lines.map((line) => drawArrow(line, paint));
  return lines.join('') + glass.join('') + drawWords(row.words, paint);
}

const SAMPLES: {
  readonly [K in Sample['kind']]: (
    sample: Extract<Sample, { readonly kind: K }>,
    x: number,
    y: number,
    painting: Painting,
  ) => string;
} = {
  phase: ({ phase }, x, y, { paint, prefix }) =>
    `<rect x="${px(x)}" y="${px(y - 8)}" width="30" height="16" rx="2" fill="url(#${prefix}-${phase})" ${paint.colour({ stroke: 'ink' })}/>`,
  arrow: ({ basis, gas }, x, y, { paint }) =>
    drawArrow({ x1: x, x2: x + 30, y, basis, gas }, paint),
  outline: (_, x, y, { paint }) =>
    `<path d="M${px(x + 5)} ${px(y - 9)}v18h20v-18" fill="none" ${paint.colour({ stroke: 'ink' })} stroke-width="1.35" stroke-dasharray="3 2.2"/>`,
  life: (_, x, y, { paint }) =>
    `<rect x="${px(x + 12)}" y="${px(y - 10)}" width="${BAR}" height="20" rx="3.5" ${paint.colour({ fill: 'life' })}/>`,
};

export const drawSample = ({ sample, x, y }: PlacedSample, painting: Painting) =>
  (SAMPLES[sample.kind] as (s: Sample, x: number, y: number, p: Painting) => string)(
    sample,
    x,
    y,
    painting,
  );
