import { findSubstance } from '../chemistry/find.ts';
import { namesMaterial, readMaterial } from '../chemistry/material.ts';
import type { MaterialReading } from '../chemistry/material.ts';
import { makeSubstance } from '../chemistry/substance.ts';
import type { Substance, SubstanceTable } from '../chemistry/substance.ts';
import { looksLikeSmiles, readSmiles } from '../chemistry/smiles.ts';
import { readFormula } from '../chemistry/formula.ts';

export type NameReading =
  | { readonly ok: true; readonly substance: Substance }
  | { readonly ok: false; readonly message: string; readonly hint: string };

/** Looks names up in a document's table, and remembers: sentences ask for the same ones again and again. */
export interface Names {
  readonly table: SubstanceTable;
  /** A substance by name, formula or SMILES, as an equation or a product line gives it. */
  substance(name: string): NameReading;
  material(
    name: string,
    extra: { purity_percent?: number; density_g_mL?: number },
  ): MaterialReading;
  /** Whether a phrase is the name of a material: asked of every candidate phrase of a sentence. */
  knows(name: string): boolean;
}

export function namesOf(table: SubstanceTable): Names {
  const known = new Map<string, boolean>();
  const materials = new Map<string, MaterialReading>();
  const made = new Map<string, NameReading>();
  const material: Names['material'] = (name, extra) => {
    const key = `${name}|${extra.purity_percent ?? ''}|${extra.density_g_mL ?? ''}`;
    const before = materials.get(key);
    if (before) return before;
    const reading = readMaterial(name, table, extra);
    materials.set(key, reading);
    return reading;
  };
  return {
    table,
    material,
    knows(name) {
      const key = name.trim();
      const before = known.get(key);
      if (before !== undefined) return before;
      const answer = key !== '' && key.length <= 120 && namesMaterial(key, table);
      known.set(key, answer);
      return answer;
    },
    substance(name) {
      const before = made.get(name);
      if (before) return before;
      const reading = readName(table, name);
      made.set(name, reading);
      return reading;
    },
  };
}

const NONMETALS = new Set([
  'C',
  'H',
  'N',
  'O',
  'F',
  'Cl',
  'Br',
  'I',
  'S',
  'P',
  'Si',
  'B',
  'Se',
  'D',
]);

/** "Cu(CH3COO)2.H2O" is the salt that the table knows, where one alone has those atoms; organic formulas have isomers. */
function twinOf(made: Substance, table: SubstanceTable): Substance | undefined {
  const counts = made.composition?.counts;
  if (counts === undefined || ![...counts.keys()].some((symbol) => !NONMETALS.has(symbol)))
    return undefined;
  const same = table
    .all()
    .filter(
      ({ composition }) =>
        composition !== undefined &&
        composition.charge === made.composition!.charge &&
        composition.counts.size === counts.size &&
        [...counts].every(([symbol, n]) => composition.counts.get(symbol) === n),
    );
  return same.length === 1 ? same[0] : undefined;
}

/** Written as formulas are, and as no name is: capitals with figures or brackets among them. */
const FORMULA_LIKE = /^(?=.*[\d()[\]])[A-Z([][A-Za-z\d()[\]·.^+-]*$/;

function readName(table: SubstanceTable, name: string): NameReading {
  const found = findSubstance(table, name);
  if (found.kind === 'found') return { ok: true, substance: found.substance };
  if (found.kind === 'ambiguous')
    return {
      ok: false,
      message: `“${name}” may be ${found.candidates.map((c) => c.name).join(' or ')}.`,
      hint: 'Write the full name.',
    };
  const formula = readFormula(name);
  if (formula.ok) {
    const substance = makeSubstance({ name, formula: name, origin: 'formula' });
    if (substance.ok)
      return { ok: true, substance: twinOf(substance.substance, table) ?? substance.substance };
  }
  if (looksLikeSmiles(name) && readSmiles(name).ok) {
    const substance = makeSubstance({ name, smiles: name, origin: 'formula' });
    if (substance.ok) return substance;
  }
  const material = readMaterial(name, table);
  if (material.ok) return { ok: true, substance: material.material.substance };
  const near = found.near.map((substance) => substance.name);
  return {
    ok: false,
    message: `“${name}” is not in the table of substances.`,
    hint: `${near.length > 0 ? `Near to it: ${near.join(', ')}. ` : ''}Declare it under Substances (“- ${name}:” and its SMILES or formula), or ${formula.ok || !FORMULA_LIKE.test(name) ? 'write its formula here' : `mend the formula: ${formula.message.replace(/[.]$/, '')}`}.`,
  };
}
