import type { FlowSheet } from '../../core/report/flow/flow.ts';
import { escapeXml, px } from '../../structures/svg.ts';
import { drawLayout } from './draw.ts';
import { patterns } from './draw-glass.ts';
import { layoutOf } from './layout.ts';
import { FONTS, THEMES } from './theme.ts';
import type { ThemeName } from './theme.ts';
import type { FlowWords } from './words.ts';

export interface FlowSheetPictureOptions {
  /** In px; the drawing is scaled to it where its vessels need more room. */
  readonly width?: number;
  readonly theme?: ThemeName;
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

const USUAL_WIDTH = 1200;
const NARROWEST = 320;
const WIDEST = 4000;

/**
 * A flow sheet as one standalone SVG: time runs down, a vessel is a column while it holds something,
 * matter runs across from the stock to what leaves. Its height follows from the steps.
 */
export function flowSheetPicture(sheet: FlowSheet, options: FlowSheetPictureOptions = {}): string {
  const { selected, words, answer, version } = options;
  const asked = options.width ?? USUAL_WIDTH;
  const shown = Number.isFinite(asked) ? Math.min(WIDEST, Math.max(NARROWEST, asked)) : USUAL_WIDTH;
  const theme = THEMES[options.theme ?? 'paper'];
  const prefix = (options.idPrefix ?? 'flow-sheet').replace(/[^\w-]/g, '_');
  const layout = layoutOf(sheet, { width: shown, selected, words, answer, version });
  const { width } = layout.sheet.frame;
  const height = layout.height;
  const scale = shown / width;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${px(shown)}" height="${px(height * scale)}" ` +
    `viewBox="0 0 ${px(width)} ${px(height)}" role="img" aria-labelledby="${prefix}-title ${prefix}-answer" ` +
    `font-family="${FONTS}" color="${theme.ink}" fill="${theme.ink}" style="font-variant-numeric:tabular-nums">` +
    `<title id="${prefix}-title">Flow sheet: ${escapeXml(layout.title)}</title>` +
    `<desc id="${prefix}-answer">${escapeXml(layout.answer)}</desc>` +
    `<defs>${patterns(theme, prefix)}</defs>` +
    `<rect width="${px(width)}" height="${px(height)}" fill="${theme.paper}"/>` +
    `${drawLayout(layout, { theme, prefix })}</svg>\n`
  );
}
