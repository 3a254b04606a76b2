import { findKnown, findSubstance } from './find.ts';
import type { Finding } from './find.ts';
import { failure, makeMaterial } from './material-make.ts';
import { iceIn, takeModifier, tidied } from './material-words.ts';
import type { Words } from './material-words.ts';
import { shelfForm } from './shelf.ts';
import type { ShelfForm } from './shelf.ts';
import type { Strength } from './solution.ts';
import type { SubstanceTable } from './substance-table.ts';
import type { Substance } from './substance.ts';

export interface Share {
  readonly substance: Substance;
  readonly massFraction: number;
}

/** What stands on the shelf: a substance, pure or in solution, as a procedure calls it. */
export interface Material {
  /** As written, spaces tidied. */
  readonly name: string;
  /** What it is named for: the solute, or the pure thing. */
  readonly substance: Substance;
  readonly strength?: Strength;
  readonly solvent?: Substance;
  /** Assay of a solid or a neat liquid, percent by mass. */
  readonly purity_percent?: number;
  /** cold, dry, distilled ... */
  readonly conditions: readonly string[];
  /** dust, turnings, pellets ... */
  readonly form?: string;
  /** Mass fractions; they add to 1. */
  readonly composition: readonly Share[];
  readonly density_g_mL?: number;
  readonly density_T_C?: number;
  readonly densitySource?: string;
  readonly compositionSource: string;
  /** What had to be assumed, in plain words. */
  readonly assumed: readonly string[];
}

export interface Failure {
  readonly ok: false;
  readonly kind: 'unknown' | 'ambiguous' | 'strength';
  readonly message: string;
  readonly hint: string;
  /** Names that may be meant. */
  readonly near: readonly string[];
}

export type MaterialReading = { readonly ok: true; readonly material: Material } | Failure;

export interface MaterialExtra {
  readonly purity_percent?: number;
  readonly density_g_mL?: number;
}

const LONGEST = 200;
/** A solvent may name a solvent, `in 95 % ethanol`, but not for ever. */
const DEEPEST = 3;

function unfound(name: string, finding: Finding & { kind: 'unknown' | 'ambiguous' }): Failure {
  if (finding.kind === 'ambiguous') {
    const names = finding.candidates.map((candidate) => candidate.name);
    const list = `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;
    return failure('ambiguous', `"${name}" may be ${list}.`, 'Write which one.', names);
  }
  const near = finding.near.map((substance) => substance.name);
  const hint =
    near[0] === undefined
      ? 'Declare it among the substances, with its SMILES or formula.'
      : `Is ${near.join(' or ')} meant? If not, declare it among the substances.`;
  return failure('unknown', `No substance is known as "${name}".`, hint, near);
}

interface Named {
  readonly substance: Substance;
  readonly shelved?: ShelfForm;
}

/** What the words left over are the name of: a bottle of the shelf, ice, or a substance. */
function known(words: Words, table: SubstanceTable): Named | undefined {
  const finding = findKnown(table, words.rest);
  const found = finding?.kind === 'found' ? { substance: finding.substance } : undefined;
  if (found?.substance.origin === 'document') return found;
  const plain = words.strength === undefined && words.solvent === undefined;
  const shelved = plain ? shelfForm(words.rest) : undefined;
  const bottled = shelved && table.byName.get(shelved.substance.toLowerCase());
  if (shelved !== undefined && bottled !== undefined) return { substance: bottled, shelved };
  const ice = iceIn(words.rest);
  const water = ice === undefined ? undefined : table.byName.get('water');
  if (water === undefined) return found;
  words.conditions.push(ice!);
  return { substance: water };
}

/** Says of any name that it is none, without a search for near ones. */
const PLAIN_FAILURE = failure('unknown', 'No substance is known by this name.', '', []);

/** Takes words off until what is left is a name that the table or the shelf knows. */
function nameIn(words: Words, table: SubstanceTable, near: boolean): Named | Failure {
  for (;;) {
    const named = known(words, table);
    if (named !== undefined) return named;
    const before = words.rest;
    if (takeModifier(words)) continue;
    if (!near) return PLAIN_FAILURE;
    const finding = findSubstance(table, before);
    return finding.kind === 'found' ? { substance: finding.substance } : unfound(before, finding);
  }
}

function readAt(
  text: string,
  table: SubstanceTable,
  extra: MaterialExtra,
  depth: number,
  near = true,
): MaterialReading {
  const name = tidied(text.slice(0, LONGEST + 1));
  if (name === '') return failure('unknown', 'A material without a name.', 'Write its name.');
  if (text.length > LONGEST || depth > DEEPEST)
    return failure(
      'unknown',
      'This name is too long to be one.',
      `Keep it under ${LONGEST} characters.`,
    );
  const words: Words = { rest: name, conditions: [], aqueous: false, solution: false };
  const named = nameIn(words, table, near);
  if ('ok' in named) return named;
  const assumed: string[] = [];
  const read = (solvent: string): MaterialReading => readAt(solvent, table, {}, depth + 1, near);
  const made = makeMaterial({ words, table, ...named, extra, assumed, read });
  if ('ok' in made) return made;
  const density = extra.density_g_mL;
  const material: Material = {
    name,
    substance: named.substance,
    conditions: words.conditions,
    ...(words.form !== undefined && { form: words.form }),
    ...made,
    ...(density !== undefined && { density_g_mL: density, densitySource: 'as given' }),
    assumed: [...new Set(assumed)],
  };
  return { ok: true, material };
}

/**
 * Reads what a procedure calls a material: `1 M hydrochloric acid`, `95 % ethanol`, `zinc dust`,
 * `sulfuric acid sp gr 1.32`, `brine`, `2 M HCl in diethyl ether`. Strengths become mass fractions
 * and a density at 20 °C; whatever the name does not say and had to be assumed is listed.
 */
export function readMaterial(
  text: string,
  table: SubstanceTable,
  extra: MaterialExtra = {},
): MaterialReading {
  return readAt(text, table, extra, 0);
}

/**
 * Whether a phrase is the name of a material. Cheap, since a sentence asks it of every phrase that
 * might be one: names that are near are not looked for.
 */
export function namesMaterial(text: string, table: SubstanceTable): boolean {
  return readAt(text, table, {}, 0, false).ok;
}
