import type { Spectrum } from '../../wire/spectrum.ts';

/** What is typed into the field of the list: a part of a name, or places of bands. */
export type Question =
  | { readonly kind: 'name'; readonly words: readonly string[] }
  | { readonly kind: 'bands'; readonly bands_percm: readonly number[] };

const plain = (text: string) =>
  text
    .normalize('NFD')
    .replace(/\p{Diacritic}/gu, '')
    .toLowerCase();

const MOST_BANDS = 12;
const RANGE = { low: 400, high: 4000 };

/** "1715 1220" asks for bands: numbers of the infrared and nothing else, blanks or semicolons between. */
export function questionIn(text: string): Question {
  const parts = text
    .replace(/cm\s*(?:⁻¹|-1|\^-1)/gi, ' ')
    .split(/[\s;]+|,(?=\s|\d{3})/)
    .filter(Boolean);
  const numbers = parts.map((part) =>
    /^\d{3,4}(?:[.,]\d+)?$/.test(part) ? Number(part.replace(',', '.')) : Number.NaN,
  );
  const isBands =
    numbers.length > 0 &&
    numbers.length <= MOST_BANDS &&
    numbers.every((each) => each >= RANGE.low && each <= RANGE.high);
  if (isBands) return { kind: 'bands', bands_percm: numbers };
  return { kind: 'name', words: plain(text).split(/\s+/).filter(Boolean) };
}

/** Those that have every word in their name or their SMILES. */
export function named(all: readonly Spectrum[], words: readonly string[]): readonly Spectrum[] {
  return all.filter(({ name, smiles }) => {
    const said = plain(`${name} ${smiles ?? ''}`);
    return words.every((word) => said.includes(word));
  });
}

/** "1 reference spectrum". */
export const countText = (count: number): string =>
  `${count} reference ${count === 1 ? 'spectrum' : 'spectra'}`;
