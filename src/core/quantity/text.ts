/** One blank of any width, as a regular expression class. */
export const BLANK = '[ \\t\\u00a0\\u2000-\\u200a\\u202f\\u205f\\u3000]';

/** Up to a few blanks, over at most one line end: what may stand between a number and its unit. */
export const GAP = `${BLANK}{0,8}(?:\\r?\\n${BLANK}{0,8})?`;

/** As `GAP`, but something must stand there. */
export const SPACE = `(?:${BLANK}{1,8}(?:\\r?\\n${BLANK}{0,8})?|\\r?\\n${BLANK}{0,8})`;

/**
 * The letters and figures of the scripts that a unit or a name is written in: Latin, Greek,
 * Cyrillic, fractions, raised and lowered figures. Spelt out in a class because \p{L} costs a
 * millisecond in every expression that ignores case.
 */
export const LETTER =
  'A-Za-z\\u00aa\\u00b5\\u00ba\\u00c0-\\u00d6\\u00d8-\\u00f6\\u00f8-\\u024f\\u0370-\\u0373\\u0376-\\u037d\\u0386-\\u0481\\u2113';
const FIGURE =
  '0-9\\u00b2\\u00b3\\u00b9\\u00bc-\\u00be\\u2070\\u2074-\\u2079\\u2080-\\u2089\\u2150-\\u215f';

/** After a word: nothing that would make it a longer word. */
export const WORD_END = `(?![${LETTER}${FIGURE}_])`;

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
