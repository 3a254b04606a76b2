import { escapeXml, px } from '../../structures/svg.ts';
import { drawBar, drawFrame, drawRow, drawRule, drawSample, drawWords } from './draw.ts';
import type { Painting } from './draw.ts';
import type { LaidRow, Layout } from './layout.ts';
import type { DrawnRow, RowMemory } from './row-memory.ts';
import type { Sheet } from './sheet.ts';
import { spokenRow } from './spoken.ts';

/**
 * A piece of the sheet, drawn as if it began at 0 and to be moved down by `y`: what stands above it
 * may grow without a change in it.
 */
export interface FlowSheetPart {
  readonly key: string;
  /** Of a row: the step that it is. */
  readonly step?: string;
  readonly y: number;
  /** One `<g>`. That of a row is a list item with its sentence as label; any other is not spoken. */
  readonly svg: string;
}

/** Every piece of a layout, in the order in which they lie over one another. */
export function partsOf(
  layout: Layout,
  painting: Painting,
  selected?: string,
  kept?: RowMemory,
): FlowSheetPart[] {
  const { sheet, rows, head, bars, foot } = layout;
  const { paint } = painting;
  const silent = (key: string, y: number, drawn: string): FlowSheetPart => ({
    key,
    y,
    svg: `<g aria-hidden="true">${drawn}</g>`,
  });
  const rules = rows.slice(1).map((row) => {
    return silent(`rule ${row.step}`, row.y, drawRule(0, row.heavy, sheet, paint));
  });
  const chosen = rows.filter(({ step }) => step === selected);
  const { legend } = foot;
  const samples = legend.samples.map((each) => drawSample(each, painting)).join('');
  return [
    silent('head', 0, drawWords(head.words, paint) + drawRule(head.bottom, true, sheet, paint)),
    ...rules,
    ...chosen.map((row) => silent('selected', row.y, drawFrame(row, sheet, paint))),
    ...bars.map((bar) => silent(`life ${bar.vessel} ${bar.step}`, bar.y, drawBar(bar, paint))),
    ...rows.map((row): FlowSheetPart => {
      const { label, drawn } = kept?.drawn.get(row.placed) ?? drawnRow(row, sheet, painting);
      kept?.drawn.set(row.placed, { label, drawn });
      return {
        key: `step ${row.step}`,
        step: row.step,
        y: row.y,
        svg: `<g role="listitem" ${label}>${drawWords(row.heading, paint)}${drawn}</g>`,
      };
    }),
    silent(
      'foot',
      foot.y,
      drawRule(0, true, sheet, paint) + samples + drawWords(legend.words, paint),
    ),
  ];
}

const drawnRow = (row: LaidRow, sheet: Sheet, painting: Painting): DrawnRow => ({
  label: `id="${painting.prefix}-step-${idText(row.step)}" data-step="${escapeXml(row.step)}" aria-label="${escapeXml(spokenRow(row, sheet))}"`,
  drawn: drawRow(row, sheet, painting),
});

const idText = (text: string) => text.replace(/[^\w-]/g, '_');

/** The part in its place, for a picture that is written once. */
export const inPlace = ({ y, svg }: FlowSheetPart): string =>
  `<g transform="translate(0 ${px(y)})">${svg}</g>`;
