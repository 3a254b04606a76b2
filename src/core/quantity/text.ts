/** One blank of any width, as a regular expression class. */
export const BLANK = '[ \\t\\u00a0\\u2000-\\u200a\\u202f\\u205f\\u3000]';

/** Up to a few blanks, over at most one line end: what may stand between a number and its unit. */
export const GAP = `${BLANK}{0,8}(?:\\r?\\n${BLANK}{0,8})?`;

/** As `GAP`, but something must stand there. */
export const SPACE = `(?:${BLANK}{1,8}(?:\\r?\\n${BLANK}{0,8})?|\\r?\\n${BLANK}{0,8})`;

/** After a word: nothing that would make it a longer word. */
export const WORD_END = '(?![\\p{L}\\p{N}_])';

/** A sticky expression: it matches at one place or not at all, so no call scans the text. */
export function sticky(source: string, flags = ''): RegExp {
  return new RegExp(source, `${flags}uy`);
}

export function matchAt(expression: RegExp, text: string, at: number): RegExpExecArray | null {
  expression.lastIndex = at;
  return expression.exec(text);
}

/**
 * Where an abbreviation's full stop ends, or `at` where there is none or it may close the
 * sentence: at the end of the text, or before a capital.
 */
export function afterAbbreviationStop(text: string, at: number): number {
  if (text[at] !== '.') return at;
  return matchAt(SENTENCE_END, text, at + 1) === null ? at + 1 : at;
}

const SENTENCE_END = sticky(`[\\s)"']*(?:$|\\p{Lu})`);
