import type { TitrationKind } from '../../../../core/evidence/titration/schema.ts';

interface KindWords {
  readonly name: string;
  /** What is usually in the burette: common practice. */
  readonly titrants: readonly [string, ...string[]];
  /** Primary standards for it, by their names in the table of substances: common practice. */
  readonly standards: readonly string[];
  /** Moles of titrant for one mole of most analytes; nothing where it depends. */
  readonly equivalents: string;
}

const ALKALI = ['sodium hydroxide', 'potassium hydroxide'] as const;
const ACIDS = ['hydrochloric acid', 'sulfuric acid'] as const;

/** What changes with what is titrated. */
export const KIND_WORDS: Readonly<Record<TitrationKind, KindWords>> = {
  acid: {
    name: 'an acid, with base',
    titrants: ALKALI,
    standards: ['potassium hydrogen phthalate'],
    equivalents: '1',
  },
  base: {
    name: 'a base, with acid',
    titrants: ACIDS,
    standards: ['sodium carbonate'],
    equivalents: '1',
  },
  saponification: {
    name: 'an ester: boiled with base, what is left titrated with acid',
    titrants: ACIDS,
    standards: ['sodium carbonate'],
    equivalents: '1',
  },
  iodometric: {
    name: 'an oxidant: the iodine that it sets free, with thiosulfate',
    titrants: ['sodium thiosulfate'],
    standards: ['potassium iodate', 'potassium dichromate'],
    equivalents: '',
  },
};
