/** Words of the trade that differ: UK first, then US. Longer ones stand before what they begin with. */
const PAIRS: readonly (readonly [uk: string, us: string])[] = [
  ['separating funnel', 'separatory funnel'],
  ['conical flask', 'Erlenmeyer flask'],
  ['measuring cylinder', 'graduated cylinder'],
  ['fume cupboard', 'fume hood'],
  ['recrystallise', 'recrystallize'],
  ['crystallise', 'crystallize'],
  ['neutralise', 'neutralize'],
  ['hydrolyse', 'hydrolyze'],
  ['labelled', 'labeled'],
  ['aluminium', 'aluminum'],
  ['burette', 'buret'],
  ['colour', 'color'],
  ['litre', 'liter'],
  ['distil', 'distill'],
];

const asInUk = new Map(PAIRS.map(([uk, us]) => [us.toLowerCase(), uk]));
const asInUs = new Map(PAIRS.map(([uk, us]) => [uk.toLowerCase(), us]));

/** Whole words, plural or not, and "-d" of the verbs; "distilled" is spelled alike in both. */
const patternOf = (words: Iterable<string>) =>
  new RegExp(`\\b(${[...words].join('|')})(s|d)?\\b`, 'gi');

const IN_TERMS = {
  uk: { pattern: patternOf(asInUk.keys()), words: asInUk },
  us: { pattern: patternOf(asInUs.keys()), words: asInUs },
} as const;

/** The same text in the terms of the laboratory; nothing but the words of the list changes. */
export function inTerms(text: string, terms: 'us' | 'uk'): string {
  const { pattern, words } = IN_TERMS[terms];
  return text.replace(pattern, (_, word: string, ending: string | undefined) => {
    const other = words.get(word.toLowerCase()) ?? word;
    const capital = /^[A-Z]/.test(word) && word !== 'Erlenmeyer flask';
    const cased = capital ? other.charAt(0).toUpperCase() + other.slice(1) : other;
    return cased + (ending ?? '');
  });
}
