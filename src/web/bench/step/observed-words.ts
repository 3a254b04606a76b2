import type { Settings } from '../../../wire/settings.ts';

const BRITISH = ['colour change', 'gas', 'precipitate', 'two layers', 'clear'];

/** What is most often written down at a bench. */
export const OBSERVED: Readonly<Record<Settings['terms'], readonly string[]>> = {
  uk: BRITISH,
  us: BRITISH.map((word) => word.replace('colour', 'color')),
};

/** A word put behind what was written; tapped a second time it goes. */
export function withWord(text: string, word: string): string {
  const parts = text
    .split(',')
    .map((part) => part.trim())
    .filter((part) => part !== '');
  const without = parts.filter((part) => part !== word);
  return (without.length < parts.length ? without : [...parts, word]).join(', ');
}
