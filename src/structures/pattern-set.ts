import type { MainModule, Mol } from '@rdkit/rdkit';
import type { Pattern, PatternSet, Refused } from './port.ts';

/** Lends out the molecule of a SMILES and takes it back. */
type Lend = <T>(smiles: string, use: (molecule: Mol) => T) => T | Refused;

/** A compiled pattern, to be deleted by whoever asked for it; null where the SMARTS cannot be read. */
export function compilePattern(module: MainModule, smarts: string): Mol | null {
  try {
    return smarts.trim() === '' ? null : module.get_qmol(smarts);
  } catch {
    return null;
  }
}

/** The atoms of every match. An answer without matches is `{}`, where one with them is a list. */
export function matchesIn(molecule: Mol, pattern: Mol, options?: string): number[][] {
  const answer =
    options === undefined
      ? molecule.get_substruct_matches(pattern)
      : molecule.get_substruct_matches(pattern, options);
  return answer === '{}'
    ? []
    : (JSON.parse(answer) as { atoms: number[] }[]).map((match) => match.atoms);
}

/** Compiled patterns are kept, not deleted: the set lives as long as its toolkit. */
export function patternSetOf(
  module: MainModule,
  patterns: readonly Pattern[],
  withMolecule: Lend,
): { readonly ok: true; readonly set: PatternSet } | Refused {
  const compiled: {
    readonly asked: Pattern;
    readonly pattern: Mol;
    readonly options: string | undefined;
  }[] = [];
  const giveUp = (message: string): Refused => {
    for (const { pattern } of compiled) pattern.delete();
    return { ok: false, message };
  };
  for (const asked of patterns) {
    const pattern = compilePattern(module, asked.smarts);
    if (pattern === null) return giveUp(`${asked.smarts} (${asked.id}) is no pattern in SMARTS.`);
    // Reading options costs the toolkit as much as a search: only where a pattern says cis or trans
    const options = /[/\\]/.test(asked.smarts) ? '{"useChirality":true}' : undefined;
    compiled.push({ asked, pattern, options });
  }
  return {
    ok: true,
    set: {
      matches: (smiles) =>
        withMolecule(smiles, (molecule) => {
          const found: Record<string, number[][]> = {};
          for (const { asked, pattern, options } of compiled) {
            if (asked.refines.some((id) => found[id] === undefined)) continue;
            const matches = matchesIn(molecule, pattern, options);
            if (matches.length > 0) found[asked.id] = matches;
          }
          return { ok: true, matches: found };
        }),
    },
  };
}
