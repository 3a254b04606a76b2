import { sentenceStart } from '../../core/quantity/sentence.ts';
import type { InstrumentFileEntered } from '../../core/evidence/instrument-file/schema.ts';
import { techniqueWords } from '../../core/evidence/technique-words.ts';
import type { EvidenceEntered } from '../../core/evidence/schema.ts';

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

const fileWords = (kind: InstrumentFileEntered['kind']): string =>
  kind === 'other' ? 'file from an instrument' : techniqueWords(kind);

/** "Infrared spectrum of the product" */
export function evidenceTitle(entered: EvidenceEntered): string {
  if (entered.technique === 'meltingRange') return MELTING[entered.sample];
  const what =
    entered.technique === 'file' ? fileWords(entered.kind) : techniqueWords(entered.technique);
  const of = 'of' in entered && typeof entered.of === 'string' ? (OF[entered.of] ?? '') : '';
  return sentenceStart(of === '' ? what : `${what} ${of}`);
}

/** The name that the file had, where it was read from one. */
export function evidenceFile(entered: EvidenceEntered): string {
  return 'file' in entered && typeof entered.file === 'string' ? entered.file : '';
}
