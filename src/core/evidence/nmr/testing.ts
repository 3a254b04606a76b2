import { makeSubstance } from '../../chemistry/substance.ts';
import type { Subject, SubjectRole } from '../subject.ts';
import type { NmrEntered, NmrSignal } from './schema.ts';

export function subject(name: string, smiles: string, role: SubjectRole = 'product'): Subject {
  const made = makeSubstance({ name, smiles });
  if (!made.ok) throw new Error(made.message);
  return { role, substance: made.substance, literature: {} };
}

export type Row = readonly [shift_ppm: number, integral: number, multiplicity: string];

export function spectrum(
  rows: readonly Row[],
  more: Partial<NmrEntered> = {},
  further: readonly NmrSignal[] = [],
): NmrEntered {
  const signals = rows.map(([shift_ppm, integral, multiplicity]) => ({
    shift_ppm,
    integral,
    multiplicity,
  }));
  return { technique: 'nmr', solvent: 'CDCl3', ...more, signals: [...signals, ...further] };
}
