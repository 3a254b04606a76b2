import { escapeXml } from '../../structures/svg.ts';
import type { SpectrumColours } from './colours.ts';
import type { Layout } from './layout.ts';
import type { Stroke } from './strokes.ts';

export interface Pen {
  readonly layout: Layout;
  readonly colours: SpectrumColours;
  /** Before every id, so that several pictures can share a page. */
  readonly prefix: string;
  readonly strokes: ReadonlyMap<string, Stroke>;
}

/** px of the words of a picture. */
export const SMALL = 13;

export const path = (d: string, stroke: string, width: number, rest = '') =>
  `<path d="${d}" stroke="${stroke}" stroke-width="${width}" fill="none"${rest}/>`;

export function dashesOf(stroke: Stroke | undefined): string {
  return stroke === undefined || stroke.dashes.length === 0
    ? ''
    : ` stroke-dasharray="${stroke.dashes.join(' ')}"`;
}

export const titled = (id: string, tag: 'title' | 'desc', text: string) =>
  `<${tag} id="${id}">${escapeXml(text)}</${tag}>`;
