import type { Composition } from '../core/chemistry/composition.ts';
import { findSubstance } from '../core/chemistry/find.ts';
import { readFormula } from '../core/chemistry/formula.ts';
import { looksLikeSmiles, readSmiles } from '../core/chemistry/smiles.ts';
import { tableWith } from '../core/chemistry/substance.ts';
import type { Substance } from '../core/chemistry/substance.ts';

export const READINGS = ['name', 'formula', 'smiles'] as const;
export type ReadAs = (typeof READINGS)[number];

export interface Identified {
  readonly composition: Composition;
  readonly readAs: ReadAs;
  readonly substance?: Substance;
  /** What was chosen where the text could mean two things. */
  readonly assumed?: string;
}

export type Identification =
  | { readonly ok: true; readonly found: Identified }
  | { readonly ok: false; readonly message: string; readonly hint?: string };

/** What a text is made of: a name of the table before a formula, a formula before SMILES. */
export function compositionOfText(text: string, only?: ReadAs): Identification {
  const table = tableWith([]);
  let near: readonly Substance[] = [];
  if (only === undefined || only === 'name') {
    const match = findSubstance(table, text);
    if (match.kind === 'found' && match.substance.composition !== undefined)
      return { ok: true, found: ofSubstance(match.substance, match.substance.composition) };
    if (match.kind === 'found')
      return refused(`${match.substance.name} has no formula: it is followed by mass alone.`);
    if (match.kind === 'ambiguous') {
      const names = match.candidates.map((one) => one.name).join(', ');
      return refused(`${text} may mean several things: ${names}.`, 'Write which.');
    }
    near = match.near;
  }
  const other = only === 'name' ? undefined : readStructure(text, only);
  if (other?.ok) return other;
  const hint = near.length > 0 ? `Near: ${near.map((one) => one.name).join(', ')}.` : other?.hint;
  if (only === undefined && near.length > 0) return refused(`${text} is not known.`, hint);
  return refused(other?.message ?? `The table has no ${text}.`, hint);
}

function refused(message: string, hint?: string): Identification {
  return { ok: false, message, ...(hint === undefined ? {} : { hint }) };
}

function ofSubstance(substance: Substance, composition: Composition): Identified {
  return { composition, readAs: 'name', substance };
}

function readStructure(text: string, only: ReadAs | undefined): Identification {
  const formula = only === 'smiles' ? undefined : readFormula(text);
  const smiles = only === 'formula' ? undefined : readSmiles(text);
  if (formula?.ok) {
    const assumed =
      formula.assumed ??
      (smiles?.ok && only === undefined && text.length > 1
        ? 'Taken as a formula; as SMILES it would be something else (--as smiles).'
        : undefined);
    const found: Identified = { composition: formula.composition, readAs: 'formula' };
    return { ok: true, found: assumed === undefined ? found : { ...found, assumed } };
  }
  if (smiles?.ok) return { ok: true, found: { composition: smiles.composition, readAs: 'smiles' } };
  const trouble = looksLikeSmiles(text) || formula === undefined ? smiles : formula;
  const what = trouble === smiles ? 'SMILES' : 'a formula';
  if (trouble === undefined || trouble.ok) return refused(`${text} is not known.`);
  const at = trouble.column > 0 ? ` (at character ${trouble.column + 1})` : '';
  const hint = trouble === formula && !formula.ok ? formula.hint : undefined;
  return refused(
    `${text} is not in the table, nor can it be read as ${what}: ${trouble.message}${at}`,
    hint,
  );
}
