import type { TitrationKind } from '../../../../core/evidence/titration/schema.ts';

interface KindWords {
  readonly name: string;
  /** What is usually in the burette: common practice. */
  readonly titrants: readonly [string, ...string[]];
  /** Primary standards for it, by their names in the table of substances: common practice. */
  readonly standards: readonly string[];
  /** Moles of titrant for one mole of most analytes; nothing where it depends. */
  readonly equivalents: string;
  /** How the moles of titrant are counted, for the analyte and for the standards. */
  readonly counting: string;
  readonly countingStandard: string;
  /** What counts as its concentration, where that can be taken in two ways. */
  readonly strength?: string;
}

const OF_PROTONS = 'Counted as H⁺: 0.05 mol/L sulfuric acid is 0.1 mol/L here.';

const ALKALI = ['sodium hydroxide', 'potassium hydroxide'] as const;
const ACIDS = ['hydrochloric acid'] as const;

/** What changes with what is titrated. */
export const KIND_WORDS: Readonly<Record<TitrationKind, KindWords>> = {
  acid: {
    name: 'an acid, with base',
    titrants: ALKALI,
    standards: ['potassium hydrogen phthalate'],
    equivalents: '1',
    counting: '1 for each acid group that is titrated.',
    countingStandard: 'Hydrogen phthalate takes 1.',
  },
  base: {
    name: 'a base, with acid',
    titrants: ACIDS,
    standards: ['sodium carbonate'],
    equivalents: '1',
    counting: '1 for each basic group that is titrated.',
    countingStandard: 'Carbonate takes 2, to methyl orange.',
    strength: OF_PROTONS,
  },
  saponification: {
    name: 'an ester, by saponification',
    titrants: ACIDS,
    standards: ['sodium carbonate'],
    equivalents: '1',
    counting: 'Of base: 1 for each ester group.',
    countingStandard: 'Carbonate takes 2, to methyl orange.',
    strength: OF_PROTONS,
  },
  iodometric: {
    name: 'an oxidant, by iodometry',
    titrants: ['sodium thiosulfate'],
    standards: ['potassium iodate', 'potassium dichromate'],
    equivalents: '',
    counting: '2 for each I₂ that it sets free.',
    countingStandard: 'Iodate and dichromate take 6.',
  },
};
