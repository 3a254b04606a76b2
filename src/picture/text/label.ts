import { escapeXml, px } from '../../structures/svg.ts';

export interface Label {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly fill: string;
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly weight?: number;
  readonly italic?: boolean;
  /** As if inked in: how a measured number is set. */
  readonly underlined?: boolean;
  /** Colour of what it may run across, drawn round its letters. */
  readonly over?: string;
}

/** A line of text in an SVG, by presentation attributes alone. */
export function drawLabel(label: Label): string {
  const { text, x, y, size, fill, anchor = 'start', weight, italic, underlined, over } = label;
  const attributes = [
    `x="${px(x)}" y="${px(y)}" font-size="${size}" fill="${fill}"`,
    anchor === 'start' ? '' : `text-anchor="${anchor}"`,
    weight === undefined ? '' : `font-weight="${weight}"`,
    italic ? 'font-style="italic"' : '',
    underlined ? 'text-decoration="underline"' : '',
    over === undefined
      ? ''
      : `paint-order="stroke" stroke="${over}" stroke-width="5" stroke-linejoin="round"`,
  ];
  return `<text ${attributes.filter((each) => each !== '').join(' ')}>${escapeXml(text)}</text>`;
}
