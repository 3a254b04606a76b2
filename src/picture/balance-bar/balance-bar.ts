import type { BalanceCourse } from '../../core/report/result/course.ts';
import { escapeXml, px } from '../../structures/svg.ts';
import { PAGE_COLOURS } from '../page-colours.ts';
import type { PageColours } from '../page-colours.ts';
import { drawLabel } from '../text/label.ts';
import { asideLines, layoutOf, LINE, SIZE, SMALL, valueText } from './layout.ts';
import type { BarLayout, BarRoom, PlacedStage } from './layout.ts';
import { courseSentence } from './words.ts';
import type { BarWording } from './words.ts';

export interface BalanceBarOptions extends BarWording {
  /** In px. Below 620 the words stand over the bars. */
  readonly width: number;
  readonly colours?: PageColours;
  /** Before every id, so that several pictures can share a page. */
  readonly idPrefix: string;
  /** Shared with the bars beside it. */
  readonly room?: BarRoom;
}

/**
 * The material balance as an SVG: a bar of the theoretical mass, and under it the same bar again at
 * each weighing, to one scale, so that what went shows as a stair.
 */
export function balanceBar(course: BalanceCourse, options: BalanceBarOptions): string {
  const { colours = PAGE_COLOURS } = options;
  const prefix = options.idPrefix.replace(/[^\w-]/g, '_');
  const layout = layoutOf(course, options, options.width, options.room);
  const { width, height } = layout;
  const pen: Pen = { colours, prefix, layout };
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${px(width)}" height="${px(height)}" ` +
    `viewBox="0 0 ${px(width)} ${px(height)}" role="img" aria-label="${escapeXml(courseSentence(course, options))}">` +
    `<defs>${patterns(pen)}</defs>` +
    stairs(pen) +
    layout.stages.map((stage) => drawStage(stage, pen)).join('') +
    '</svg>'
  );
}

interface Pen {
  readonly colours: PageColours;
  readonly prefix: string;
  readonly layout: BarLayout;
}

/** What went is hatched, what is too much ruled, what was weighed on the way dotted. */
function patterns({ colours, prefix }: Pen): string {
  const pattern = (name: string, size: number, content: string, turn = '') =>
    `<pattern id="${prefix}-${name}" width="${size}" height="${size}" patternUnits="userSpaceOnUse"${turn}>${content}</pattern>`;
  return (
    pattern(
      'gone',
      7,
      `<path d="M0 0V7" stroke="${colours.edge}" stroke-width="1.6"/>`,
      ' patternTransform="rotate(45)"',
    ) +
    pattern('over', 5, `<path d="M0 2.5H5" stroke="${colours.aqueousLine}" stroke-width="1.6"/>`) +
    pattern('dots', 6, `<circle cx="3" cy="3" r="1.3" fill="${colours.solidLine}"/>`)
  );
}

/** The end of the theory through every row, and from each level down to the next. */
function stairs({ colours, layout }: Pen): string {
  const { stages, theory_x, barHeight, height } = layout;
  const first = stages[0];
  if (first === undefined) return '';
  const last = stages.at(-1)!;
  const line = (x: number, from: number, to: number, dashes: string) =>
    `<path d="M${px(x)} ${px(from)}V${px(to)}" stroke="${colours.edge}" stroke-width="1"${dashes} fill="none"/>`;
  const drops = stages.slice(1).map(({ gone, y }, i) => {
    const x = gone.x + gone.width;
    const before = stages[i]!;
    return gone.width > 0 && Math.abs(x - theory_x) > 1 ? line(x, before.y + barHeight, y, '') : '';
  });
  const end = Math.min(height, last.y + barHeight + 5);
  return line(theory_x, first.y, end, ' stroke-dasharray="2 3"') + drops.join('');
}

function drawStage(placed: PlacedStage, pen: Pen): string {
  return drawBar(placed, pen) + (pen.layout.narrow ? narrowWords : wideWords)(placed, pen);
}

function drawBar({ stage, y, bar, over, gone }: PlacedStage, pen: Pen): string {
  const { colours, prefix, layout } = pen;
  const height = layout.barHeight;
  const rect = (x: number, width: number, paint: string) =>
    width > 0.3
      ? `<rect x="${px(x)}" y="${px(y)}" width="${px(width)}" height="${height}" ${paint}/>`
      : '';
  const outline = `stroke="${colours.ink}" stroke-width="1.5"`;
  const dashed = `stroke="${colours.ink}" stroke-width="1.25" stroke-dasharray="5 3"`;
  const final = stage.weighing !== 'crude' && stage.weighing !== 'earlier';
  const body: Readonly<Record<typeof stage.kind, string>> = {
    theory: rect(bar.x, bar.width, `fill="none" ${outline}`),
    gone: rect(bar.x, bar.width, `fill="none" stroke="${colours.edge}" stroke-width="1"`),
    due: rect(bar.x, bar.width, `fill="none" ${dashed}`),
    weighed: final
      ? rect(bar.x, bar.width, `fill="${colours.ink}" ${outline}`)
      : rect(bar.x, bar.width, `fill="${colours.solidTint}"`) +
        rect(bar.x, bar.width, `fill="url(#${prefix}-dots)" ${outline}`),
  };
  return (
    rect(gone.x, gone.width, `fill="url(#${prefix}-gone)" ${dashed}`) +
    body[stage.kind] +
    rect(over.x, over.width, `fill="${colours.aqueousTint}"`) +
    rect(over.x, over.width, `fill="url(#${prefix}-over)" ${dashed}`)
  );
}

/** Name and place to the left, the number at the right end of that column, what went to the right. */
function wideWords({ stage, words, y, aside }: PlacedStage, { colours, layout }: Pen): string {
  const measured = stage.kind === 'weighed';
  const due = stage.kind === 'due';
  const numbers = layout.stages[0]!.bar.x - 20;
  const line = y + 12;
  return [
    drawLabel({
      text: words.label,
      x: 0,
      y: line,
      size: SIZE,
      fill: colours.ink,
      weight: 600,
      italic: due,
    }),
    drawLabel({ text: words.place, x: 0, y: line + 18, size: SMALL, fill: colours.quiet }),
    words.value === ''
      ? ''
      : drawLabel({
          text: words.value,
          x: numbers,
          y: line,
          size: SIZE,
          fill: colours.ink,
          anchor: 'end',
          underlined: measured,
          italic: due,
          ...(measured ? { weight: 700 } : {}),
        }),
    drawLabel({
      text: words.percent,
      x: numbers,
      y: line + 18,
      size: SMALL,
      fill: colours.quiet,
      anchor: 'end',
    }),
    drawAside(words, aside, y + layout.barHeight / 2 + 4.5 - besideUp(words), colours),
  ].join('');
}

/** Two lines beside a bar stand about its middle. */
const besideUp = (words: PlacedStage['words']) => ((asideLines(words).length - 1) * LINE) / 2;

/** Everything on one line over the bar, what went on one under it. */
function narrowWords({ stage, words, y, aside }: PlacedStage, { colours, layout }: Pen): string {
  const measured = stage.kind === 'weighed';
  const due = stage.kind === 'due';
  const where = words.place.split(' · ')[0] ?? '';
  return [
    drawLabel({
      text: where === '' ? words.label : `${words.label}, ${where}`,
      x: 0,
      y: y - 8,
      size: SIZE,
      fill: colours.ink,
      weight: 600,
      italic: due,
    }),
    drawLabel({
      text: valueText(words),
      x: layout.width,
      y: y - 8,
      size: SIZE,
      fill: colours.ink,
      anchor: 'end',
      underlined: measured,
      italic: due,
      ...(measured ? { weight: 700 } : {}),
    }),
    drawAside(words, aside, y + layout.barHeight + 16, colours),
  ].join('');
}

/** `y`: the baseline of the first line under one another, of the middle beside the bar. */
function drawAside(
  words: PlacedStage['words'],
  aside: PlacedStage['aside'],
  y: number,
  colours: PageColours,
): string {
  return asideLines(words)
    .map((text, i) =>
      drawLabel({
        text,
        x: aside.x,
        y: y + i * LINE,
        size: SMALL,
        fill: colours.ink,
        anchor: aside.end ? 'end' : 'start',
        italic: true,
        over: colours.paper,
      }),
    )
    .join('');
}
