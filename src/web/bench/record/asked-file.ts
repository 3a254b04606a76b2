import type { EvidenceEntered } from '../../../core/evidence/schema.ts';
import type { BenchField, BenchSheet, BenchStep } from '../sheet.ts';

const ASKS: Readonly<Record<string, RegExp>> = {
  infrared: /\binfrared\b|\bIR\b/i,
  nmr: /\bNMR\b/i,
  mass: /\bmass spectr/i,
  chromatogram: /\bchromatogra|\bGC\b|\bHPLC\b/i,
};

const kindOf = (entered: EvidenceEntered): string =>
  entered.technique === 'file' ? entered.kind : entered.technique;

/** Whether a field asks to see just what this file shows: "infrared spectrum of the product". */
export function asksFor(
  { kind, label }: Pick<BenchField, 'kind' | 'label'>,
  entered: EvidenceEntered,
) {
  const wanted = ASKS[kindOf(entered)];
  return kind === 'observation' && wanted !== undefined && wanted.test(label);
}

/** The step at which the sheet asks for such a file of the product; undefined where it does not. */
export function stepAsking(sheet: BenchSheet, entered: EvidenceEntered): string | undefined {
  const ofProduct = 'of' in entered && entered.of === 'product';
  if (!ofProduct) return undefined;
  return sheet.steps.find(({ fields }) => fields.some((field) => asksFor(field, entered)))?.id;
}

/** Whether a step asks for the file of any instrument. */
export const asksForFile = ({ fields }: BenchStep): boolean =>
  fields.some(
    ({ kind, label }) =>
      kind === 'observation' && Object.values(ASKS).some((wanted) => wanted.test(label)),
  );
