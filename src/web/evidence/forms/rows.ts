import type { Draft, DraftReader } from './draft.ts';

/** Whether nothing was typed or ticked in a line. */
export const isBlank = (row: Draft): boolean =>
  Object.values(row).every((value) =>
    Array.isArray(value) ? (value as readonly Draft[]).every(isBlank) : !value,
  );

/** The lines of a draft in which there is something. */
export function typedRows(held: Draft[string]): readonly Draft[] {
  return Array.isArray(held) ? (held as readonly Draft[]).filter((row) => !isBlank(row)) : [];
}

/** The lines in which one of the fields was filled; a line that was only added counts for nothing. */
export function filledRows(
  reader: DraftReader,
  name: string,
  fields: readonly string[],
): readonly DraftReader[] {
  return reader
    .rows(name)
    .filter((row) => fields.some((field) => row.text(field, Infinity) !== undefined));
}
