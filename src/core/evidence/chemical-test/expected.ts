import type { StructureFacts } from '../structure.ts';
import { groupsIn } from './groups.ts';
import type { ChemicalTest } from './table.ts';

/** `open`: the structure holds a group for which the test is known to go either way. */
export type ExpectedResult = 'positive' | 'negative' | 'open';

export interface Expectation {
  readonly result: ExpectedResult;
  /** The groups that decide it. */
  readonly because: readonly string[];
}

/** What a structure should answer. */
export function expectedOf(test: ChemicalTest, facts: StructureFacts): Expectation {
  const has = groupsIn(facts);
  const [detects, may, misses] = [test.detects, test.may, test.misses].map((groups) =>
    groups.filter(has),
  );
  if (misses!.length > 0) return { result: 'open', because: misses! };
  if (detects!.length > 0) return { result: 'positive', because: detects! };
  if (may!.length > 0) return { result: 'open', because: may! };
  return { result: 'negative', because: [] };
}
