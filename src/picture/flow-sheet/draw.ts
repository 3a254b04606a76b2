import type { Basis } from '../../core/ledger/posting.ts';
import { escapeXml, px } from '../../structures/svg.ts';
import { drawGlass } from './draw-glass.ts';
import type { Tail, Words } from './items.ts';
import type { Layout, LifeBar, Rule } from './layout.ts';
import type { PlacedSample, Sample } from './legend.ts';
import type { PlacedRow } from './row.ts';
import type { Sheet } from './sheet.ts';
import { spokenRow } from './spoken.ts';
import type { Theme } from './theme.ts';

export interface Painting {
  readonly theme: Theme;
  readonly prefix: string;
}

const INK: Readonly<Record<Words['ink'], (theme: Theme) => string>> = {
  ink: () => '',
  quiet: ({ quiet }) => ` fill="${quiet}"`,
  accent: ({ accent }) => ` fill="${accent}"`,
};

export function drawWords(words: Words, theme: Theme): string {
  const { x, y, text, anchor, size, bold, italic, underlined, ink, tail } = words;
  const place = `x="${px(x)}" y="${px(y)}"${anchor === 'start' ? '' : ` text-anchor="${anchor}"`}`;
  const style = [
    `font-size="${size}"`,
    bold === true ? ' font-weight="700"' : '',
    italic === true ? ' font-style="italic"' : '',
    underlined === true ? ' text-decoration="underline"' : '',
    INK[ink](theme),
  ].join('');
  if (tail === undefined) return `<text ${place} ${style}>${escapeXml(text)}</text>`;
  // Each with its own style, as an underline would run on through what stands inside it
  const first = `<tspan ${style}>${escapeXml(text)}</tspan>`;
  return `<text ${place}>${first}${drawTail(tail, theme)}</text>`;
}

const drawTail = ({ text, size, gap }: Tail, { quiet }: Theme) =>
  `<tspan dx="${gap}" font-size="${size}" fill="${quiet}">${escapeXml(text)}</tspan>`;

const all = (words: readonly Words[], theme: Theme) =>
  words.map((each) => drawWords(each, theme)).join('');

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
export function drawArrow({ x1, x2, y, basis, gas }: Stroke, { ink }: Theme): string {
  const way = x2 < x1 ? -1 : 1;
  const back = x2 - way * HEAD;
  const end = gas ? x2 - way : back;
  const head = `M${px(back)} ${px(y - 4)}L${px(x2)} ${px(y)}L${px(back)} ${px(y + 4)}`;
  const tip = gas
    ? `<path d="${head}" fill="none" stroke="${ink}" stroke-width="1.3"/>`
    : `<path d="${head}Z" fill="${ink}"/>`;
  return `<path d="M${px(x1)} ${px(y)}H${px(end)}" stroke="${ink}" fill="none" ${STROKE[basis]}/>${tip}`;
}

const BAR = 7;

function drawBar({ x, from, to, ends }: LifeBar, { life }: Theme): string {
  const shape = (y: number, height: number) =>
    `<rect x="${px(x - BAR / 2)}" y="${px(y)}" width="${BAR}" height="${px(height)}" rx="3.5" fill="${life}"/>`;
  if (ends === 'emptied') return shape(from, to - from);
  // Still full where the sheet ends: the bar runs out in dots
  const dots = [0, 9].map((step) => shape(to - 18 + step, 5));
  return shape(from, Math.max(6, to - 22 - from)) + dots.join('');
}

function drawRule({ y, heavy }: Rule, { frame }: Sheet, { hairline, quiet }: Theme): string {
  const stroke = heavy ? `stroke="${quiet}" stroke-width=".9"` : `stroke="${hairline}"`;
  return `<path d="M${px(frame.margin)} ${px(y)}H${px(frame.right)}" ${stroke}/>`;
}

function drawFrame(row: PlacedRow, { frame }: Sheet, theme: Theme): string {
  const { top, bottom } = row;
  return (
    `<rect x="${px(frame.margin - 14)}" y="${px(top + 1)}" width="${px(frame.right - frame.margin + 28)}" ` +
    `height="${px(bottom - top - 2)}" rx="7" fill="${theme.selectedPaper}" stroke="${theme.accent}" ` +
    `stroke-width="${theme.frame_px}"/>`
  );
}

/** What is drawn of a row, with the same in words for who listens to it. */
function drawRow(row: PlacedRow, sheet: Sheet, { theme, prefix }: Painting): string {
  const glass = row.standings.map(({ state, ...place }) =>
    drawGlass(state, sheet.glasses.get(state.vessel)!, place, theme, prefix),
  );
  const current = sheet.selected === row.step ? ' aria-current="step"' : '';
  return (
    `<g role="listitem" id="${prefix}-step-${idText(row.step)}"${current} aria-label="${escapeXml(spokenRow(row, sheet))}">` +
    row.lines.map((line) => drawArrow(line, theme)).join('') +
    glass.join('') +
    all(row.words, theme) +
    '</g>'
  );
}

const idText = (text: string) => text.replace(/[^\w-]/g, '_');

const SAMPLES: {
  readonly [K in Sample['kind']]: (
    sample: Extract<Sample, { readonly kind: K }>,
    x: number,
    y: number,
    painting: Painting,
  ) => string;
} = {
  phase: ({ phase }, x, y, { theme, prefix }) =>
    `<rect x="${px(x)}" y="${px(y - 8)}" width="30" height="16" rx="2" fill="url(#${prefix}-${phase})" stroke="${theme.ink}"/>`,
  arrow: ({ basis, gas }, x, y, { theme }) =>
    drawArrow({ x1: x, x2: x + 30, y, basis, gas }, theme),
  outline: (_, x, y, { theme }) =>
    `<path d="M${px(x + 5)} ${px(y - 9)}v18h20v-18" fill="none" stroke="${theme.ink}" stroke-width="1.35" stroke-dasharray="3 2.2"/>`,
  life: (_, x, y, { theme }) =>
    `<rect x="${px(x + 12)}" y="${px(y - 10)}" width="${BAR}" height="20" rx="3.5" fill="${theme.life}"/>`,
};

const drawSample = ({ sample, x, y }: PlacedSample, painting: Painting) =>
  (SAMPLES[sample.kind] as (s: Sample, x: number, y: number, p: Painting) => string)(
    sample,
    x,
    y,
    painting,
  );

export function drawLayout(layout: Layout, painting: Painting): string {
  const { sheet, rows, head, parts, rules, bars, legend } = layout;
  const { theme } = painting;
  const chosen = rows.filter(({ step }) => step === sheet.selected);
  return (
    `<g aria-hidden="true">` +
    all(head, theme) +
    rules.map((rule) => drawRule(rule, sheet, theme)).join('') +
    chosen.map((row) => drawFrame(row, sheet, theme)).join('') +
    bars.map((bar) => drawBar(bar, theme)).join('') +
    all(parts, theme) +
    '</g>' +
    `<g role="list" aria-label="Steps">${rows.map((row) => drawRow(row, sheet, painting)).join('')}</g>` +
    `<g aria-hidden="true">${legend.samples.map((each) => drawSample(each, painting)).join('')}` +
    `${all(legend.words, theme)}</g>`
  );
}
