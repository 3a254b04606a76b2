import type { StructureFacts } from '../core/evidence/structure.ts';
import table from '../core/facts/structure_patterns.json' with { type: 'json' };
import { rowsOf } from '../core/facts/table.ts';
import type { Pattern, PatternSet, Refused, StructureKit } from './port.ts';

/** A set for each toolkit: one that is loaded afresh has a memory of its own. */
const sets = new WeakMap<StructureKit, PatternSet>();

/** Every pattern of data/structure_patterns.csv. A refining pattern stands after what it refines. */
export function structurePatterns(): Pattern[] {
  return rowsOf(table).map((row) => ({
    id: row['id']!,
    smarts: row['smarts']!,
    refines: row['refines']!.split(' ').filter((id) => id !== ''),
  }));
}

function setOf(kit: StructureKit): { readonly ok: true; readonly set: PatternSet } | Refused {
  const kept = sets.get(kit);
  if (kept !== undefined) return { ok: true, set: kept };
  const compiled = kit.patternSet(structurePatterns());
  if (compiled.ok) sets.set(kit, compiled.set);
  return compiled;
}

/**
 * Asks every pattern of data/structure_patterns.csv of one structure. The first use compiles them;
 * after that a molecule of twenty atoms takes well under 2 ms. Refused: no readable structure.
 */
export function structureFacts(
  kit: StructureKit,
  smiles: string,
): { readonly ok: true; readonly facts: StructureFacts } | Refused {
  const compiled = setOf(kit);
  if (!compiled.ok) return compiled;
  const found = compiled.set.matches(smiles);
  return found.ok ? { ok: true, facts: { smiles, matches: found.matches } } : found;
}
