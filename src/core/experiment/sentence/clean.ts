import type { LineMap } from '../text.ts';
import type { Span } from '../step.ts';

/** A sentence with its white space and emphasis marks folded, and the way back to the document. */
export interface CleanText {
  readonly text: string;
  /** The offset in the document of each character. */
  readonly origin: readonly number[];
}

/** What may be folded: most items hold none of it. */
const FOLDED = /[`*_\t-\r\ufeff\u1680\u2000-\u200a\u2028\u2029\u205f\u3000]|^ |  /;

export function cleanText(document: string, start: number, end: number): CleanText {
  const written = document.slice(start, end);
  if (!FOLDED.test(written))
    return { text: written, origin: Array.from({ length: written.length }, (_, i) => start + i) };
  let text = '';
  const origin: number[] = [];
  for (let i = start; i < end; i++) {
    const c = document[i]!;
    const mark =
      c === '`' ||
      (c === '*' && (document[i + 1] === '*' || document[i - 1] === '*')) ||
      (c === '_' &&
        (i === start ||
          /\s/.test(document[i - 1] ?? ' ') ||
          /[\s.,;]/.test(document[i + 1] ?? ' ')));
    const folded = mark
      ? ''
      : /\s/.test(c) && c !== '\u202f' && c !== '\u00a0' && c !== '\u2009'
        ? ' '
        : c;
    if (folded === '' || (folded === ' ' && (text === '' || text.endsWith(' ')))) continue;
    text += folded;
    origin.push(i);
  }
  return { text, origin };
}

/** The place in the document of a stretch of clean text. */
export function spanOf(clean: CleanText, lines: LineMap, start: number, end: number): Span {
  const first = clean.origin[Math.min(start, clean.origin.length - 1)] ?? 0;
  const last = clean.origin[Math.min(Math.max(end - 1, start), clean.origin.length - 1)] ?? first;
  return lines.span(first, last + 1);
}
