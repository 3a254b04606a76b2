import type { Basis } from '../../core/ledger/posting.ts';
import { textWidth } from '../text/measure.ts';
import type { TextStyle } from '../text/measure.ts';

/** What stands on the sheet, with its place in px: the layout makes it, the drawing paints it. */

interface Inked extends TextStyle {
  readonly text: string;
  readonly ink: 'ink' | 'quiet' | 'accent' | 'number';
  readonly italic?: boolean;
  readonly underlined?: boolean;
}

export interface Words extends Inked {
  readonly x: number;
  /** Of the base line. */
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
  /** Set after it in the same line, however wide the face turns out. */
  readonly tails?: readonly Tail[];
}

export interface Tail extends Inked {
  readonly gap: number;
}

/** Of a line with its tails, at most. */
export const lineWidth = ({ tails = [], ...first }: Pick<Words, 'text' | 'tails'> & TextStyle) =>
  tails.reduce(
    (sum, tail) => sum + tail.gap + textWidth(tail.text, tail),
    textWidth(first.text, first),
  );

export interface Line {
  readonly x1: number;
  readonly x2: number;
  readonly y: number;
  readonly basis: Basis;
  readonly gas: boolean;
}

/** A vessel in a row, standing on `bottom`. */
export interface Standing {
  readonly vessel: string;
  readonly x: number;
  readonly bottom: number;
}

export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Of the size: what capitals rise and tails hang, at most. */
const ASCENT = 0.78;
const DESCENT = 0.24;

export function boxOf(words: Words): Box {
  const { x, y, anchor, size } = words;
  const width = lineWidth(words);
  const left = { start: x, middle: x - width / 2, end: x - width }[anchor];
  return { left, right: left + width, top: y - ASCENT * size, bottom: y + DESCENT * size };
}

/** How a number shows how it is known. */
export const BASIS_STYLE: Readonly<
  Record<Basis, { readonly bold?: true; readonly italic?: true; readonly underlined?: true }>
> = {
  planned: {},
  measured: { bold: true, underlined: true },
  assumed: { italic: true },
};

export const withMark = (text: string, basis: Basis) => (basis === 'assumed' ? `~${text}` : text);
