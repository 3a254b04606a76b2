/** Sentences of the core with the laboratory's decimal sign: a point between two digits is one. */
export function withDecimal(text: string, sign: '.' | ','): string {
  return sign === '.' ? text : text.replace(/(?<=\d)\.(?=\d)/g, ',');
}

/**
 * No line ends within "4-methylcyclohexanone" or "20 °C": a word joiner follows the hyphen of a
 * locant, and a number stays with its unit.
 */
export const unbroken = (text: string): string =>
  text
    .replace(/(?<=\d)-(?=\p{L})/gu, '-\u2060')
    .replace(/(?<=\d) (?=(?:°C|%|[mµ]?[gL]|m?mol|min|h)(?![\p{L}]))/gu, '\u00a0');
