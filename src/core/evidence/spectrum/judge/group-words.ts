import type { JudgedGroup } from './group-judgement.ts';

/** How a group is called in a sentence. */
export const GROUP_WORDS: Readonly<Record<JudgedGroup, string>> = {
  oh: 'O–H group',
  acid: 'carboxylic acid group',
  nh: 'N–H group',
  carbonyl: 'C=O group',
  nitrile: 'C≡N group',
  nitro: 'NO₂ group',
  'alkyne-h': '≡C–H group',
  'aldehyde-ch': 'CHO group',
  aryl: 'aromatic ring',
  alkene: 'C=C group',
  'c-o': 'C–O bond',
  'c-cl': 'C–Cl bond',
};

/** With its article: "an O–H group", "A C=O group". */
export function aGroup(group: JudgedGroup, capital = false): string {
  const words = GROUP_WORDS[group];
  const article = /^(?:O–H|N–H|NO₂|aromatic)/.test(words) ? 'an' : 'a';
  return `${capital ? article.replace('a', 'A') : article} ${words}`;
}

/** For the beginning of a sentence. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
