import ambiguousTable from '../facts/ambiguous_names.json' with { type: 'json' };
import { rowsOf } from '../facts/table.ts';
import type { Composition } from './composition.ts';
import { elementOf } from './element.ts';
import { readFormula } from './formula.ts';
import { printHill } from './hill.ts';
import { editDistance, hasLocants, keyOf, locantFreeKey, stereoFreeKey } from './name-key.ts';
import type { SubstanceTable } from './substance-table.ts';
import type { Substance } from './substance.ts';

export type Finding =
  | {
      readonly kind: 'found';
      readonly substance: Substance;
      /** False where the name was found by its formula, plural, or without a stereodescriptor. */
      readonly exact: boolean;
    }
  | { readonly kind: 'ambiguous'; readonly candidates: readonly Substance[] }
  | { readonly kind: 'unknown'; readonly near: readonly Substance[] };

const LONGEST = 100;
const MOST_NEAR = 5;

let ambiguousNames: ReadonlyMap<string, readonly string[]> | undefined;

/** Words of the trade that stand for several substances. */
function ambiguousIn(table: SubstanceTable, key: string): Substance[] {
  ambiguousNames ??= new Map(
    rowsOf(ambiguousTable).map((row) => [keyOf(row['name']!), row['candidates']!.split('; ')]),
  );
  const names = ambiguousNames.get(key) ?? [];
  return names.flatMap((name) => table.byName.get(name.toLowerCase()) ?? []);
}

const byFormula = new WeakMap<readonly Substance[], ReadonlyMap<string, readonly Substance[]>>();

function formulaIndex(all: readonly Substance[]): ReadonlyMap<string, readonly Substance[]> {
  let index = byFormula.get(all);
  if (index === undefined) {
    const made = new Map<string, Substance[]>();
    for (const substance of all) {
      if (substance.composition === undefined) continue;
      const hill = printHill(substance.composition);
      made.set(hill, [...(made.get(hill) ?? []), substance]);
    }
    index = made;
    byFormula.set(all, index);
  }
  return index;
}

/** With no carbon or one, or as a salt without hydrogen (an oxalate): no isomers to be feared. */
function namesOne({ counts }: Composition): boolean {
  if ((counts.get('C') ?? 0) <= 1) return true;
  return !counts.has('H') && [...counts.keys()].some((symbol) => elementOf(symbol)!.isMetal);
}

/** Substances of that formula. Where isomers are to be feared, it is only a hint. */
function ofFormula(table: SubstanceTable, text: string): { sure: boolean; hits: Substance[] } {
  const none = { sure: false, hits: [] };
  if (!/^[A-Z([][\w()[\]·.,+-]*$/.test(text)) return none;
  const formula = readFormula(text);
  if (!formula.ok) return none;
  const hits = formulaIndex(table.all()).get(printHill(formula.composition)) ?? [];
  return { sure: namesOne(formula.composition), hits: [...hits] };
}

/** A substance whose drawing shows no stereochemistry: a descriptor in the name adds to it. */
function isFlat(substance: Substance): boolean {
  return substance.smiles === undefined || !/[@\\/]/.test(substance.smiles);
}

function outcome(hits: readonly Substance[], exact: boolean): Finding | undefined {
  if (hits.length > 1) return { kind: 'ambiguous', candidates: hits };
  return hits[0] && { kind: 'found', substance: hits[0], exact };
}

interface Called {
  readonly name: string;
  readonly key: string;
}

const calledBefore = new WeakMap<Substance, readonly Called[]>();

/** The names of a substance with their keys: a look through the whole table asks for them all. */
function calledOf(substance: Substance): readonly Called[] {
  const before = calledBefore.get(substance);
  if (before !== undefined) return before;
  const names = [substance.name, ...substance.synonyms];
  const called = names.map((name) => ({ name, key: keyOf(name) }));
  calledBefore.set(substance, called);
  return called;
}

function nearTo(table: SubstanceTable, key: string): Substance[] {
  if (key.length < 3) return [];
  const limit = key.length <= 4 ? 1 : 2;
  const found: { substance: Substance; distance: number }[] = [];
  for (const substance of table.all()) {
    let distance = Infinity;
    for (const own of calledOf(substance)) {
      if (Math.abs(own.name.length - key.length) > limit + 8) continue;
      distance = Math.min(distance, editDistance(key, own.key, limit));
    }
    if (distance < Infinity) found.push({ substance, distance });
  }
  const begins = ({ substance }: { substance: Substance }): number =>
    keyOf(substance.name).startsWith(key) ? 0 : 1;
  found.sort(
    (a, b) =>
      a.distance - b.distance ||
      begins(a) - begins(b) ||
      (a.substance.id < b.substance.id ? -1 : 1),
  );
  return found.slice(0, MOST_NEAR).map(({ substance }) => substance);
}

/** As a name stands, without its plural, without its stereodescriptor. */
function byName(table: SubstanceTable, text: string, key: string): Finding | undefined {
  const exact = outcome(table.named('full', key), true);
  if (exact !== undefined) return exact;
  const several = ambiguousIn(table, key);
  if (several.length > 0) return { kind: 'ambiguous', candidates: several };
  const { sure, hits } = ofFormula(table, text);
  if (sure && hits.length > 0) return outcome(hits, false);
  const singular = key.endsWith('s') ? key.slice(0, -1) : key;
  const plural = singular === key ? undefined : outcome(table.named('full', singular), false);
  if (plural !== undefined) return plural;
  const drawnWith = outcome(table.named('stereoFree', key), false);
  if (drawnWith !== undefined) return drawnWith;
  const bare = stereoFreeKey(text);
  if (bare !== key) return outcome(table.named('full', bare).filter(isFlat), false);
  return undefined;
}

/** Like `findSubstance`, but does not look for near names: cheap enough to try many readings. */
export function findKnown(table: SubstanceTable, name: string): Finding | undefined {
  const text = name.trim();
  const key = keyOf(text);
  if (key === '' || text.length > LONGEST) return undefined;
  const found = byName(table, text, key);
  if (found !== undefined) return found;
  const isomers = hasLocants(text) ? [] : table.named('locantFree', locantFreeKey(text));
  return isomers.length > 1 ? { kind: 'ambiguous', candidates: isomers } : undefined;
}

/**
 * The substance that a name or formula stands for. Case, spaces, hyphens, Greek letters and
 * spelling do not matter (see name-key.ts). A name that is only near to a known one is never
 * taken for it: it comes back unknown, with the near ones beside it.
 */
export function findSubstance(table: SubstanceTable, name: string): Finding {
  const known = findKnown(table, name);
  if (known !== undefined) return known;
  const text = name.trim();
  const key = keyOf(text);
  if (key === '' || text.length > LONGEST) return { kind: 'unknown', near: [] };
  const sameFormula = ofFormula(table, text).hits;
  const isomers = hasLocants(text) ? [] : table.named('locantFree', locantFreeKey(text));
  const hints = sameFormula.length > 0 ? sameFormula : [...isomers, ...nearTo(table, key)];
  return { kind: 'unknown', near: [...new Set(hints)].slice(0, MOST_NEAR) };
}

export interface Completion {
  /** The name or synonym that begins so. */
  readonly text: string;
  readonly substance: Substance;
}

/** Names that begin as what was typed, the document's own first; then those that hold it. */
export function completions(table: SubstanceTable, prefix: string, limit: number): Completion[] {
  const key = keyOf(prefix);
  if (key === '' || prefix.length > LONGEST) return [];
  const begin: Completion[] = [];
  const hold: Completion[] = [];
  for (const substance of table.all()) {
    const first = calledOf(substance).find((own) => own.key.startsWith(key));
    if (first !== undefined) begin.push({ text: first.name, substance });
    else if (hold.length < limit && key.length > 2 && keyOf(substance.name).includes(key))
      hold.push({ text: substance.name, substance });
    if (begin.length >= limit) break;
  }
  return [...begin, ...hold].slice(0, limit);
}
