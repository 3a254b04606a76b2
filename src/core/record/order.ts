import type { BenchEntry } from './entry.ts';

/** An entry as text with its fields in one fixed order: two entries are the same if these are. */
export function contentOf(entry: BenchEntry): string {
  const record = entry as Readonly<Record<string, unknown>>;
  const keys = Object.keys(record).filter((key) => record[key] !== undefined);
  keys.sort();
  return JSON.stringify(keys.map((key) => [key, record[key]]));
}

/** Milliseconds since 1970. Without an offset the time is taken as UTC: the core knows no zone. */
export function instantOf(at: string): number {
  const zoned = /T/.test(at) && !/(Z|[+-]\d\d:?\d\d)$/.test(at) ? `${at}Z` : at;
  const instant = Date.parse(zoned);
  return Number.isNaN(instant) ? 0 : instant;
}

export interface Ordered {
  readonly entry: BenchEntry;
  readonly instant: number;
  /** Filled only where two entries share an id, which is when content has to decide. */
  content?: string;
}

export function byText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** By time, then by id; entries that share both are told apart by what they say. */
export function inOrder(a: Ordered, b: Ordered): number {
  return (
    a.instant - b.instant ||
    byText(a.entry.at, b.entry.at) ||
    byText(a.entry.id, b.entry.id) ||
    byText(a.content ?? '', b.content ?? '')
  );
}
