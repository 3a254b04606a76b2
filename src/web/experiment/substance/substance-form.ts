import { printHill } from '../../../core/chemistry/hill.ts';
import { makeSubstance } from '../../../core/chemistry/substance.ts';
import type { NewSubstance } from '../../../core/experiment/edit/add-substance.ts';

/** What stands in the fields. */
export interface SubstanceFields {
  readonly name: string;
  readonly smiles: string;
  readonly state: '' | 'solid' | 'liquid' | 'gas';
  readonly density: string;
}

/** The fields as a substance, or what is still wrong with them. */
export function substanceOf(
  fields: SubstanceFields,
):
  | { readonly ok: true; readonly substance: NewSubstance }
  | { readonly ok: false; readonly why: string } {
  const { name, smiles, state, density } = fields;
  if (name.trim() === '') return { ok: false, why: 'Write the name that the sentences use.' };
  const written = density
    .trim()
    .replace(',', '.')
    .replace(/\s*g\s*\/?\s*mL.*$/i, '');
  const density_g_mL = written === '' ? undefined : Number(written);
  if (density_g_mL !== undefined && !(density_g_mL > 0 && density_g_mL < 25))
    return { ok: false, why: `“${density.trim()}” is no density in g/mL; write it as 0.92.` };
  return {
    ok: true,
    substance: {
      name: name.trim(),
      ...(smiles.trim() !== '' && { smiles: smiles.trim() }),
      ...(state !== '' && { state }),
      ...(density_g_mL !== undefined && { density_g_mL }),
    },
  };
}

/** Formula and molar mass of what is being written, from our own sourced weights. */
export function weighed(
  smiles: string,
): { readonly formula: string; readonly molarMass_g_mol: number } | undefined {
  if (smiles.trim() === '') return undefined;
  const made = makeSubstance({ name: 'as drawn', smiles: smiles.trim() });
  if (!made.ok) return undefined;
  const { composition, molarMass_g_mol } = made.substance;
  return composition === undefined || molarMass_g_mol === undefined
    ? undefined
    : { formula: printHill(composition), molarMass_g_mol };
}
