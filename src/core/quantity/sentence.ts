/** Descriptors in front of a chemical name: locants, and the prefixes that are set in italics. */
const DESCRIPTOR =
  "(?:[0-9]+[A-Za-z]?'*|[A-Z]|[a-zα-ω]|tert|sec|cis|trans|rac|syn|anti|endo|exo|meso|dl|\\([^()\\s]{1,12}\\)|\\[[^\\]\\s]{1,12}\\])";
const DESCRIPTORS = new RegExp(`^(?:${DESCRIPTOR}(?:,${DESCRIPTOR})*-)*`);
const WORD = /^(?:an?(?![\w-])|[a-z]{3,}|[a-z]{2}-)/;

/**
 * A text as it stands at the beginning of a sentence: with a capital, which in a chemical name is
 * the first letter behind locants and italic prefixes (IUPAC Recommendations 2013, P-16.4):
 * "4-Methylcyclohexanone", "tert-Butanol". Symbols such as pH, mL and mp are left as they are.
 */
export function sentenceStart(text: string): string {
  const before = DESCRIPTORS.exec(text)?.[0] ?? '';
  const rest = text.slice(before.length);
  return WORD.test(rest) ? before + rest[0]!.toUpperCase() + rest.slice(1) : text;
}
