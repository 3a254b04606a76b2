import type { BenchEntry, EntryKind } from './entry.ts';
import type { RecordDiagnostic, Struck } from './run.ts';

export interface Corrected {
  /** What counts, with the fields that a correction took over filled in; in the record's order. */
  readonly standing: readonly BenchEntry[];
  readonly struck: readonly Struck[];
  readonly diagnostics: readonly RecordDiagnostic[];
}

/** For these kinds the text is the record itself; for the others it is the reason for striking. */
const TEXT_KINDS: ReadonlySet<EntryKind> = new Set(['observation', 'lot', 'time']);

interface Graph {
  /** The place of the entry that each entry corrects, or -1. */
  readonly target: Int32Array;
  readonly correctors: readonly (readonly number[])[];
  readonly diagnostics: RecordDiagnostic[];
}

/**
 * Strikes what corrections strike. A correction with new content replaces its target; one without
 * withdraws it. To replace a correction leaves what it struck struck; to withdraw it brings that
 * back. Of two corrections of one entry the later stands.
 */
export function applyCorrections(entries: readonly BenchEntry[]): Corrected {
  if (!entries.some((each) => each.corrects !== undefined || each.kind === 'correction')) {
    return { standing: entries, struck: [], diagnostics: [] };
  }
  const graph = correctionGraph(entries);
  const filled = fillIn(entries, graph);
  const { struckBy, replacedBy, withdrawal } = strike(entries, filled, graph);
  const standing: BenchEntry[] = [];
  const struck: Struck[] = [];
  entries.forEach((entry, i) => {
    const by = struckBy[i];
    if (by !== undefined) {
      const replacement = replacedBy[i];
      struck.push({
        entry,
        by: entries[by]!.id,
        ...(replacement === undefined ? {} : { replacedBy: entries[replacement]!.id }),
      });
    } else if (!withdrawal[i] && filled[i]!.kind !== 'correction') {
      standing.push(filled[i]!);
    }
  });
  return { standing, struck, diagnostics: graph.diagnostics };
}

function correctionGraph(entries: readonly BenchEntry[]): Graph {
  const place = new Map(entries.map((entry, i) => [entry.id, i]));
  const diagnostics: RecordDiagnostic[] = [];
  const target = Int32Array.from(entries, (entry) => {
    const at = entry.corrects === undefined ? undefined : place.get(entry.corrects);
    if (at === undefined && (entry.corrects !== undefined || entry.kind === 'correction')) {
      diagnostics.push(dangling(entry));
    }
    return at ?? -1;
  });
  for (const i of inCircles(target)) {
    diagnostics.push(circular(entries[i]!));
    target[i] = -1;
  }
  const correctors = entries.map((): number[] => []);
  target.forEach((at, i) => {
    if (at >= 0) correctors[at]!.push(i);
  });
  return { target, correctors, diagnostics };
}

function dangling(entry: BenchEntry): RecordDiagnostic {
  const about =
    entry.corrects === undefined
      ? 'does not say which entry it corrects'
      : `corrects "${entry.corrects}", which is not in this record`;
  return {
    code: 'correction-dangling',
    severity: 'warning',
    message: `Entry "${entry.id}" ${about}.`,
    hint: 'It is kept. Name the entry that is struck, or look for the missing one.',
    entry: entry.id,
  };
}

function circular(entry: BenchEntry): RecordDiagnostic {
  return {
    code: 'correction-circular',
    severity: 'warning',
    message: `Entry "${entry.id}" corrects an entry that in the end corrects it.`,
    hint: 'Nothing is struck here. Write one more correction that says which value is right.',
    entry: entry.id,
  };
}

/** Each entry points at one other at most, so that a walk which meets itself has found a circle. */
function inCircles(target: Int32Array): number[] {
  const seenIn = new Int32Array(target.length).fill(-1);
  const found: number[] = [];
  for (let start = 0; start < target.length; start++) {
    let i = start;
    while (i >= 0 && seenIn[i] === -1) {
      seenIn[i] = start;
      i = target[i]!;
    }
    if (i < 0 || seenIn[i] !== start) continue;
    for (let j = target[i]!; ; j = target[j]!) {
      found.push(j);
      if (j === i) break;
    }
  }
  return found.sort((a, b) => a - b);
}

/** Targets before what corrects them. */
function targetsFirst(graph: Graph): number[] {
  const order: number[] = [];
  graph.target.forEach((at, i) => {
    if (at < 0) order.push(i);
  });
  for (let k = 0; k < order.length; k++) order.push(...graph.correctors[order[k]!]!);
  return order;
}

function fillIn(entries: readonly BenchEntry[], graph: Graph): BenchEntry[] {
  const filled = [...entries];
  for (const i of targetsFirst(graph)) {
    const at = graph.target[i]!;
    const entry = entries[i]!;
    if (at < 0 || entry.kind !== 'correction') continue;
    const { value, high, decimals, text, corrects: _struck, ...rest } = filled[at]!;
    const numbers = entry.value === undefined ? { value, high, decimals } : {};
    const said = TEXT_KINDS.has(rest.kind) && entry.text === undefined ? { text } : {};
    filled[i] = defined({ ...rest, ...numbers, ...said, ...entry, kind: rest.kind });
  }
  return filled;
}

function defined(entry: Record<string, unknown>): BenchEntry {
  return Object.fromEntries(
    Object.entries(entry).filter(([, value]) => value !== undefined),
  ) as unknown as BenchEntry;
}

/** Whether a correction of an entry of this kind says only that it does not count. */
export function withdraws(entry: BenchEntry, kind: EntryKind): boolean {
  if (entry.kind !== 'correction') return false;
  const { value, step, use, item, vessel, unit, instrument, n, attachments, evidence } = entry;
  const content = [value, step, use, item, vessel, unit, instrument, n, attachments, evidence];
  if (content.some((each) => each !== undefined)) return false;
  return !(TEXT_KINDS.has(kind) && entry.text !== undefined);
}

function strike(entries: readonly BenchEntry[], filled: readonly BenchEntry[], graph: Graph) {
  const withdrawal = entries.map(
    (entry, i) => graph.target[i]! >= 0 && withdraws(entry, filled[i]!.kind),
  );
  const effective: boolean[] = entries.map(() => true);
  const struckBy: (number | undefined)[] = entries.map(() => undefined);
  const replacedBy: (number | undefined)[] = entries.map(() => undefined);
  for (const i of targetsFirst(graph).reverse()) {
    const acting = graph.correctors[i]!.filter((c) => effective[c]).sort((a, b) => a - b);
    const last = acting.at(-1);
    if (last === undefined) continue;
    const replacing = acting.filter((c) => !withdrawal[c]);
    const standing = replacing.at(-1);
    effective[i] = standing !== undefined;
    struckBy[i] = standing ?? last;
    replacedBy[i] = standing;
    for (const earlier of replacing.slice(0, -1)) {
      struckBy[earlier] = standing;
      replacedBy[earlier] = standing;
    }
    if (replacing.length > 1) graph.diagnostics.push(twice(entries[i]!, entries[standing!]!));
  }
  return { struckBy, replacedBy, withdrawal };
}

function twice(entry: BenchEntry, last: BenchEntry): RecordDiagnostic {
  return {
    code: 'correction-twice',
    severity: 'note',
    message: `Entry "${entry.id}" was corrected more than once; the last, "${last.id}", counts.`,
    entry: entry.id,
  };
}
