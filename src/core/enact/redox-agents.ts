import { rowsOf } from '../facts/table.ts';
import agentTable from '../facts/redox_agents.json' with { type: 'json' };

let cached: ReadonlyMap<string, readonly string[]> | undefined;

/** Ids of common oxidants (`O`) or reductants (`H`), from data/redox_agents.csv. */
export function redoxAgents(delivers: 'O' | 'H'): readonly string[] {
  if (cached === undefined) {
    const byKind = new Map<string, string[]>();
    for (const row of rowsOf(agentTable)) {
      const list = byKind.get(row['delivers']!) ?? [];
      list.push(row['substance']!.toLowerCase());
      byKind.set(row['delivers']!, list);
    }
    cached = byKind;
  }
  return cached.get(delivers) ?? [];
}
