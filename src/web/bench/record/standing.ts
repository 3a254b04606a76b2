import { applyCorrections, withdraws } from '../../../core/record/correct.ts';
import type { BenchEntry } from '../../../core/record/entry.ts';
import { uniqueInOrder } from '../../../core/record/unique.ts';

/** One line of the record as the page shows it: what counts, or what was struck and why. */
export interface Line {
  /** With what a correction took over filled in. */
  readonly entry: BenchEntry;
  readonly struck?: Strike;
  /** It corrects a line that is not in this record (yet), and does not count. */
  readonly adrift?: true;
}

export interface Strike {
  /** Absent where it was struck without a word. */
  readonly reason?: string;
  readonly by: string;
  readonly at: string;
  /** False where the line was withdrawn and nothing stands in its place. */
  readonly replaced: boolean;
}

/**
 * Every line of a record in order of time, struck ones among them, by the rules of the record
 * (core/record): the same for every order of arrival. A correction that withdraws is no line of its
 * own; its reason stands at the line that it struck.
 */
export function linesOf(entries: readonly BenchEntry[]): Line[] {
  const { counted } = uniqueInOrder(entries);
  const { standing, struck } = applyCorrections(counted);
  const byId = new Map(counted.map((entry) => [entry.id, entry]));
  const stands = new Map(standing.map((entry) => [entry.id, entry]));
  const strikes = new Map(struck.map((each) => [each.entry.id, each]));
  return counted.flatMap((entry): Line[] => {
    const standingEntry = stands.get(entry.id);
    if (standingEntry !== undefined) return [{ entry: standingEntry }];
    const strike = strikes.get(entry.id);
    const placed = placedLikeItsTarget(entry, byId);
    if (withdraws(entry, placed.kind)) return [];
    if (strike === undefined) return [{ entry: placed, adrift: true }];
    const by = byId.get(strike.by)!;
    const reason = TEXT_KINDS.has(placed.kind) ? undefined : by.text;
    const replaced = strike.replacedBy !== undefined;
    const said = reason === undefined || reason === '' ? {} : { reason };
    return [{ entry: placed, struck: { ...said, by: by.by, at: by.at, replaced } }];
  });
}

/** Where the text is the record itself, the text of a correction is no reason. */
export const TEXT_KINDS: ReadonlySet<BenchEntry['kind']> = new Set(['observation', 'lot', 'time']);

/** A struck correction says only what it changed: the rest is that of the line it corrected. */
function placedLikeItsTarget(entry: BenchEntry, byId: ReadonlyMap<string, BenchEntry>): BenchEntry {
  let placed = entry;
  const seen = new Set([entry.id]);
  let target = byId.get(entry.corrects ?? '');
  while (placed.kind === 'correction' && target !== undefined && !seen.has(target.id)) {
    seen.add(target.id);
    const { value: _value, high: _high, decimals: _decimals, text: _text, ...place } = target;
    placed = { ...place, ...placed, kind: target.kind };
    target = byId.get(target.corrects ?? '');
  }
  return placed;
}
