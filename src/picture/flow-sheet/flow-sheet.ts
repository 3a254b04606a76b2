import type { FlowSheet } from '../../core/report/flow/flow.ts';
import { escapeXml, px } from '../../structures/svg.ts';
import { patterns } from './draw-glass.ts';
import type { Painting } from './draw.ts';
import { layoutOf, widthAcross } from './layout.ts';
import type { Layout, LayoutOptions } from './layout.ts';
import { narrowLayoutOf } from './narrow.ts';
import { literalPaint, pagePaint } from './paint.ts';
import { inPlace, partsOf } from './parts.ts';
import type { FlowSheetPart } from './parts.ts';
import type { RowMemory } from './row-memory.ts';
import { FONTS, THEMES } from './theme.ts';
import type { ThemeName } from './theme.ts';
import type { FlowWords } from './words.ts';

/**
 * `wide`: vessels are columns, scaled where there is no room for them. `narrow`: one column of
 * steps, never scaled. `fitting`: wide where its words can then be read, else narrow.
 */
export type FlowSheetForm = 'wide' | 'narrow' | 'fitting';

export interface FlowSheetOptions {
  /** In px; 1200 if it is not said. */
  readonly width?: number;
  readonly form?: FlowSheetForm;
  /** The step that is asked about, by its id. */
  readonly selected?: string;
  /** Sentences, amounts as written and weighings of the run (`flowWords`). */
  readonly words?: FlowWords;
  /** The sentence that answers what the sheet is asked; without it a count of steps and hours. */
  readonly answer?: string;
  /** Which version of the document this is. */
  readonly version?: string;
  /** Before every id, so that two pictures can share a page. */
  readonly idPrefix?: string;
}

export interface FlowSheetPartsOptions extends FlowSheetOptions {
  /** Of a page that draws the same sheet again and again: rows that stay the same cost nothing. */
  readonly rows?: RowMemory;
}

export interface FlowSheetPictureOptions extends FlowSheetOptions {
  readonly theme?: ThemeName;
}

/** A flow sheet in pieces, for a page that changes what has changed. */
export interface FlowSheetParts {
  /** Of the picture as shown, in px. */
  readonly width: number;
  readonly height: number;
  readonly viewBox: string;
  /** What stands in `<defs>`. */
  readonly defs: string;
  readonly parts: readonly FlowSheetPart[];
  readonly title: string;
  readonly answer: string;
}

const USUAL_WIDTH = 1200;
const NARROWEST = 320;
const WIDEST = 4000;
/** Scaled down further, the words of a wide sheet are too small to be read. */
const LEAST_SCALE = 0.85;

function widthOf({ width }: FlowSheetOptions): number {
  if (width === undefined || !Number.isFinite(width)) return USUAL_WIDTH;
  return Math.min(WIDEST, Math.max(NARROWEST, width));
}

const prefixOf = ({ idPrefix }: FlowSheetOptions) =>
  (idPrefix ?? 'flow-sheet').replace(/[^\w-]/g, '_');

const FORMS: Readonly<Record<FlowSheetForm, (sheet: FlowSheet, options: LayoutOptions) => Layout>> =
  {
    wide: layoutOf,
    narrow: narrowLayoutOf,
    fitting: (sheet, options) => {
      const scale = options.width / widthAcross(sheet, options.width);
      return (scale < LEAST_SCALE ? narrowLayoutOf : layoutOf)(sheet, options);
    },
  };

function sizeOf({ sheet, height }: Layout, shown: number) {
  const { width } = sheet.edges;
  return {
    width: shown,
    height: (height * shown) / width,
    viewBox: `0 0 ${px(width)} ${px(height)}`,
  };
}

/**
 * A flow sheet as one standalone SVG: time runs down, a vessel is a column while it holds something,
 * matter runs across from the stock to what leaves. Its height follows from the steps.
 */
export function flowSheetPicture(sheet: FlowSheet, options: FlowSheetPictureOptions = {}): string {
  const { form = 'wide', selected, words, answer, version } = options;
  const shown = widthOf(options);
  const theme = THEMES[options.theme ?? 'paper'];
  const painting: Painting = { paint: literalPaint(theme), prefix: prefixOf(options) };
  const { prefix, paint } = painting;
  const layout = FORMS[form](sheet, { width: shown, selected, words, answer, version });
  const { width, height, viewBox } = sizeOf(layout, shown);
  const parts = partsOf(layout, painting, selected);
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${px(width)}" height="${px(height)}" ` +
    `viewBox="${viewBox}" role="img" aria-labelledby="${prefix}-title ${prefix}-answer" ` +
    `font-family="${FONTS}" color="${theme.colours.ink}" ${paint.colour({ fill: 'ink' })}>` +
    `<title id="${prefix}-title">Flow sheet: ${escapeXml(layout.title)}</title>` +
    `<desc id="${prefix}-answer">${escapeXml(layout.answer)}</desc>` +
    `<defs>${patterns(paint, prefix)}</defs>` +
    `<rect width="${px(layout.sheet.edges.width)}" height="${px(layout.height)}" ${paint.colour({ fill: 'paper' })}/>` +
    `<g role="list" aria-label="Steps">${parts.map(inPlace).join('')}</g></svg>\n`
  );
}

/**
 * The same in pieces. The page makes the `<svg class="flow-sheet" role="list">`, gives every piece
 * its `transform`, and sets what changes with use (`tabindex`, `aria-current="step"`) itself; the
 * colours are those of flow-sheet.css. Which step is selected shows in one piece more.
 */
export function flowSheetParts(
  sheet: FlowSheet,
  options: FlowSheetPartsOptions = {},
): FlowSheetParts {
  const { form = 'fitting', selected, words, answer, version, rows } = options;
  const shown = widthOf(options);
  const layout = FORMS[form](sheet, { width: shown, words, answer, version, rows });
  const painting: Painting = { paint: pagePaint, prefix: prefixOf(options) };
  return {
    ...sizeOf(layout, shown),
    defs: patterns(pagePaint, painting.prefix),
    parts: partsOf(layout, painting, selected, rows),
    title: layout.title,
    answer: layout.answer,
  };
}
