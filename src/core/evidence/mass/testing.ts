import { makeSubstance } from '../../chemistry/substance.ts';
import type { Subject, SubjectRole } from '../subject.ts';
import type { MassEntered } from './schema.ts';

export function subject(name: string, smiles: string, role: SubjectRole = 'product'): Subject {
  const made = makeSubstance({ name, smiles });
  if (!made.ok) throw new Error(made.message);
  return { role, substance: made.substance, literature: {} };
}

export const entered = (
  ionisation: MassEntered['ionisation'],
  peaks: readonly (readonly [mz: number, intensity: number])[],
  more: Partial<MassEntered> = {},
): MassEntered => ({
  technique: 'mass',
  ionisation,
  peaks: peaks.map(([mz, intensity]) => ({ mz, intensity })),
  ...more,
});
