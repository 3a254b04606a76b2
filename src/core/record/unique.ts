import type { BenchEntry } from './entry.ts';
import { byText, contentOf, inOrder, instantOf } from './order.ts';
import type { Ordered } from './order.ts';
import type { BenchRun, RecordDiagnostic } from './run.ts';

export interface Unique {
  /** One entry for each id, in order. */
  readonly counted: readonly BenchEntry[];
  /** Those, and the others that came under an id that was taken. */
  readonly all: readonly BenchEntry[];
  readonly conflicts: BenchRun['conflicts'];
  readonly diagnostics: readonly RecordDiagnostic[];
}

/** Each entry once, by time and id. Of different entries under one id the last counts, and it is said. */
export function uniqueInOrder(entries: readonly BenchEntry[]): Unique {
  const byId = new Map<string, Ordered[]>();
  for (const entry of entries) {
    const held = byId.get(entry.id);
    if (held === undefined) {
      byId.set(entry.id, [{ entry, instant: instantOf(entry.at) }]);
      continue;
    }
    const content = contentOf(entry);
    for (const each of held) each.content ??= contentOf(each.entry);
    if (held.some((each) => each.content === content)) continue;
    held.push({ entry, instant: instantOf(entry.at), content });
  }
  const counted: Ordered[] = [];
  const others: Ordered[] = [];
  const conflicting: string[] = [];
  for (const [id, held] of byId) {
    if (held.length > 1) {
      held.sort(inOrder);
      others.push(...held.slice(0, -1));
      conflicting.push(id);
    }
    counted.push(held.at(-1)!);
  }
  counted.sort(inOrder);
  conflicting.sort(byText);
  const inTime = counted.map((each) => each.entry);
  return {
    counted: inTime,
    all: others.length === 0 ? inTime : [...counted, ...others].sort(inOrder).map((o) => o.entry),
    conflicts: conflicting.map((id) => ({ id, entries: byId.get(id)!.map((each) => each.entry) })),
    diagnostics: conflicting.map((id) => conflict(id, byId.get(id)!.length)),
  };
}

function conflict(id: string, count: number): RecordDiagnostic {
  return {
    code: 'entry-conflict',
    severity: 'error',
    message: `${count} different entries came under the id "${id}"; the last of them counts.`,
    hint: 'All are kept. Look which is right, and strike the other with a correction.',
    entry: id,
  };
}
