import type { z } from 'zod';
import type { benchEntrySchema, ENTRY_KINDS } from './schema.ts';

/**
 * One line of a bench record. Lines are only ever added: a mistake is struck by a later line that
 * names it in `corrects`, and stays legible.
 *
 * - `at` is ISO 8601; without an offset it is taken as UTC, so that every machine sorts alike.
 * - `document` is the hash of the version that the bench worked from; absent: not pinned.
 * - `use` is the id of a material's use ("3.1"); `item` is the material's name as written.
 * - a `tare` or `gross` with an item weighs that material by difference.
 * - `decimals` is given only where the number was written with trailing zeros ("1.1200").
 * - `high` is the upper end of a melting range.
 * - `n` counts weighings to constant mass: gross 1, gross 2.
 * - `evidence` is a measurement of identity or purity; its file, if any, is the first attachment.
 * - `attachments` are the hashes of photographs and files, which are kept elsewhere.
 */
export type BenchEntry = z.infer<typeof benchEntrySchema>;

export type EntryKind = (typeof ENTRY_KINDS)[number];

/** Decimals in the shortest way of writing a number: 1.12 has two, 5e-7 has seven. */
export function shortestDecimals(value: number): number {
  const [digits = '', exponent = '0'] = String(value).toLowerCase().split('e');
  const point = digits.indexOf('.');
  const written = point < 0 ? 0 : digits.length - point - 1;
  return Math.max(0, written - Number(exponent));
}

/** Decimals as they were written down. */
export function writtenDecimals(entry: BenchEntry): number {
  const shortest = entry.value === undefined ? 0 : shortestDecimals(entry.value);
  return Math.max(shortest, entry.decimals ?? 0);
}
