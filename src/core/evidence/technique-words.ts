import type { Technique } from './statement.ts';

const TECHNIQUE_WORDS: Readonly<Record<Technique, string>> = {
  infrared: 'infrared spectrum',
  meltingRange: 'melting range',
  boilingRange: 'boiling range',
  refractiveIndex: 'refractive index',
  density: 'density',
  rotation: 'optical rotation',
  thinLayer: 'TLC',
  chromatogram: 'chromatogram',
  titration: 'titration',
  chemicalTest: 'chemical test',
  nmr: 'NMR spectrum',
  mass: 'mass spectrum',
};

/** As in the middle of a sentence: "infrared spectrum". */
export const techniqueWords = (technique: Technique): string => TECHNIQUE_WORDS[technique];
