import { readFormula } from '../core/chemistry/formula.ts';

export const FONTS = "'Atkinson Hyperlegible Next', 'Atkinson Hyperlegible', Verdana, sans-serif";
const INK = { light: '#1d2733', dark: '#e9e4d8' };

/** Characters that XML 1.0 cannot hold are left out; the rest is escaped. */
export function escapeXml(text: string): string {
  return text
    .replace(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, '')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;')
    .replace(/'/g, '&#39;');
}

export const px = (value: number): string => String(Math.round(value * 10) / 10);

export interface Page {
  readonly width: number;
  readonly height: number;
  readonly dark?: boolean | undefined;
  readonly label: string;
  readonly body: string;
}

/** A picture whose ink is `currentColor`: a style sheet of the page around it may set another. */
export function page({ width, height, dark, label, body }: Page): string {
  const size = `width="${px(width)}" height="${px(height)}" viewBox="0 0 ${px(width)} ${px(height)}"`;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" ${size} color="${dark ? INK.dark : INK.light}" ` +
    `role="img" aria-label="${escapeXml(label)}">${body}</svg>`
  );
}

/**
 * Widths of letters in ems, near enough for any sans-serif: a little more than Verdana's average,
 * so that a fallback font does not run over its neighbour.
 */
function letterWidth(c: string): number {
  if (/[ijl.,;:'|!]/.test(c)) return 0.33;
  if (/[\sfrtI()[\]/-]/.test(c)) return 0.42;
  if (/[mwMW%@→]/.test(c)) return 0.95;
  return /[A-Z]/.test(c) ? 0.7 : 0.6;
}

export const textWidth = (text: string, size: number): number =>
  Array.from(text).reduce((sum, c) => sum + letterWidth(c), 0) * size;

/** Digits of the formulas within a line are lowered: `H2SO4 (cat.)`, but not `2 h` or `10 mol%`. */
function lowered(text: string, size: number): string {
  const drop = px(size * 0.22);
  return text
    .split(/(\s+|,)/)
    .map((word) => {
      const reading = /[A-Za-z)\]]\d/.test(word) ? readFormula(word) : undefined;
      if (reading?.ok !== true) return escapeXml(word);
      return word
        .split(/(?<=[A-Za-z)\]])(\d+)/)
        .map((piece, i) =>
          i % 2 === 0
            ? escapeXml(piece)
            : `<tspan dy="${drop}" font-size="72%">${piece}</tspan><tspan dy="-${drop}">&#8203;</tspan>`,
        )
        .join('');
    })
    .join('');
}

export interface Line {
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly text: string;
}

/** A line of text, `y` its baseline. */
export function line({ x, y, size, anchor = 'middle', text }: Line): string {
  return (
    `<text x="${px(x)}" y="${px(y)}" font-size="${px(size)}" text-anchor="${anchor}" ` +
    `font-family="${escapeXml(FONTS)}" fill="currentColor">${lowered(text, size)}</text>`
  );
}
