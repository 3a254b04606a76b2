import { px } from '../../structures/svg.ts';
import { FONTS } from '../flow-sheet/theme.ts';
import type { ThemeName } from '../flow-sheet/theme.ts';
import { drawLabel } from '../text/label.ts';
import { textWidth, wrapWithin } from '../text/measure.ts';
import { themeColours } from './colours.ts';
import { definitions, surroundings } from './draw.ts';
import { curves } from './draw-curves.ts';
import { key, KEY_LINE, keyPlaces } from './draw-names.ts';
import { layoutOf, NARROW_BELOW } from './layout.ts';
import { titled } from './pen.ts';
import type { Pen } from './pen.ts';
import { seriesOf } from './series.ts';
import { MOST_TRACES } from './spectrum-view.ts';
import type { SpectrumView } from './spectrum-view.ts';
import { strokesOf } from './strokes.ts';
import { spectrumSentences } from './words.ts';
import type { ScaleKind, Stretch } from './x-scale.ts';

export interface SpectrumCaption {
  /** Of the sample. */
  readonly name: string;
  /** "liquid film", "ATR, diamond". */
  readonly state?: string;
  /** Which version of which experiment it belongs to. */
  readonly version?: string;
}

export interface SpectrumPictureOptions {
  readonly caption: SpectrumCaption;
  /** In px; 1120 and 600 (640 where it is narrow) if they are not said. */
  readonly width?: number;
  readonly height?: number;
  /** `print` is black on white. */
  readonly theme?: ThemeName;
  readonly decimal?: '.' | ',';
  /**
   * `split` if it is not said: below 2000 cm⁻¹, where most bands stand, wavenumbers take twice the
   * room, and the axis says so. Other axes have one scale.
   */
  readonly scale?: ScaleKind;
  /** A part of the whole, in places of that scale. */
  readonly stretch?: Stretch;
  readonly fitHeight?: boolean;
  readonly hidden?: ReadonlySet<string>;
  /** Before every id, so that several pictures can share a page. */
  readonly idPrefix?: string;
}

const WIDEST = 4000;
const PADDING = 24;

/**
 * Traces as one standalone SVG, as chemists draw them: wavenumber falling to the right, transmittance
 * with its bands down. The same view always gives the same text.
 */
export function spectrumPicture(view: SpectrumView, options: SpectrumPictureOptions): string {
  const { caption, theme = 'paper', decimal = '.', scale = 'split' } = options;
  const width = between(options.width ?? 1120, 320, WIDEST);
  const height = between(options.height ?? (width < NARROW_BELOW ? 640 : 600), 320, WIDEST);
  const prefix = (options.idPrefix ?? 'spectrum').replace(/[^\w-]/g, '_');
  const colours = themeColours(theme);
  const inner = width - 2 * PADDING;
  const { hidden } = options;
  const several = view.traces.slice(0, MOST_TRACES).filter(({ id }) => hidden?.has(id) !== true);
  const keyed = inner < NARROW_BELOW && several.length > 1;
  const keyLines = keyed ? keyPlaces(several, inner).at(-1)!.line + 1 : 0;
  const heading = headingOf(caption, inner);
  const series = new Map(
    view.traces.slice(0, MOST_TRACES).map((trace) => [trace.id, seriesOf(trace)]),
  );
  const layout = layoutOf(view, series, {
    ...options,
    width: inner,
    height: height - 2 * PADDING,
    scale,
    decimal,
    headroom: heading.height + keyLines * KEY_LINE,
  });
  const pen: Pen = { layout, colours, prefix, strokes: strokesOf(view.traces) };
  const left = layout.unlabelled;
  const more =
    left === 0
      ? ''
      : ` ${left} weaker band${left === 1 ? ' has' : 's have'} no label for want of room.`;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${px(width)}" height="${px(height)}" ` +
    `viewBox="0 0 ${px(width)} ${px(height)}" role="img" aria-labelledby="${prefix}-title ${prefix}-said" ` +
    `font-family="${FONTS}" fill="${colours.ink}">` +
    titled(`${prefix}-title`, 'title', heading.title) +
    titled(`${prefix}-said`, 'desc', `${spectrumSentences(view, decimal)}${more}`) +
    `<defs>${definitions(pen)}</defs>` +
    `<rect width="${px(width)}" height="${px(height)}" fill="${colours.paper}"/>` +
    `<g transform="translate(${PADDING} ${PADDING})">` +
    heading.lines
      .map(({ text, y, size, bold }) =>
        drawLabel({
          text,
          x: 0,
          y,
          size,
          fill: bold ? colours.ink : colours.quiet,
          ...(bold ? { weight: 700 } : {}),
        }),
      )
      .join('') +
    (keyed ? key(pen, heading.height + 12) : '') +
    surroundings(pen) +
    curves(pen) +
    '</g></svg>\n'
  );
}

const between = (value: number, low: number, high: number) =>
  Number.isFinite(value) ? Math.min(high, Math.max(low, value)) : low;

/** The name, and under it the state and the version. */
function headingOf({ name, state = '', version = '' }: SpectrumCaption, width: number) {
  const names = wrapWithin(name, width, 2, { size: 20, bold: true });
  const details = [state, version].filter((each) => each !== '');
  const one = details.join(' · ');
  const under = textWidth(one, { size: 13 }) <= width ? [one] : details;
  let y = -6;
  const lines = [
    ...names.map((text) => ({ text, y: (y += 24), size: 20, bold: true })),
    ...under
      .filter((text) => text !== '')
      .map((text) => ({ text, y: (y += 20), size: 13, bold: false })),
  ];
  return { lines, height: y + 14, title: [name, ...details].join(', ') };
}
