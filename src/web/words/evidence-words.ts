import type { EvidenceEntered } from '../../core/evidence/schema.ts';

const WORDS: Readonly<Record<string, string>> = {
  infrared: 'Infrared spectrum',
  meltingRange: 'Melting range',
  boilingRange: 'Boiling range',
  refractiveIndex: 'Refractive index',
  density: 'Density',
  rotation: 'Optical rotation',
  thinLayer: 'TLC',
  chromatogram: 'Chromatogram',
  titration: 'Titration',
  chemicalTest: 'Chemical test',
  nmr: 'NMR spectrum',
  mass: 'Mass spectrum',
  other: 'File from an instrument',
};

const OF: Readonly<Record<string, string>> = {
  product: 'of the product',
  startingMaterial: 'of the starting material',
  reference: 'of a known sample',
  polystyrene: 'of the polystyrene film',
  other: '',
};

const MELTING = {
  product: 'Melting range',
  mixed: 'Mixed melting range',
  authentic: 'Melting range of a known sample',
} as const;

/** "Infrared spectrum of the product" */
export function evidenceTitle(entered: EvidenceEntered): string {
  if (entered.technique === 'meltingRange') return MELTING[entered.sample];
  const what = WORDS[entered.technique === 'file' ? entered.kind : entered.technique] ?? 'Evidence';
  const of = 'of' in entered && typeof entered.of === 'string' ? (OF[entered.of] ?? '') : '';
  return of === '' ? what : `${what} ${of}`;
}

/** The name that the file had, where it was read from one. */
export function evidenceFile(entered: EvidenceEntered): string {
  return 'file' in entered && typeof entered.file === 'string' ? entered.file : '';
}
