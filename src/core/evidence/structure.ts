/** What the structure toolkit says of one structure: which patterns it holds, and where. */
export interface StructureFacts {
  /** As given. Atom numbers count along it. */
  readonly smiles: string;
  /** For each pattern of data/structure_patterns.csv that matches: the atoms of each match. */
  readonly matches: Readonly<Record<string, readonly (readonly number[])[]>>;
}

/** How often a pattern is in a structure. */
export function timesIn(facts: StructureFacts, pattern: string): number {
  return facts.matches[pattern]?.length ?? 0;
}
