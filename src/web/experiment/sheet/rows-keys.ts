/** Where the keys lead within the rows of the sheet. */
const STEP: Readonly<Record<string, (at: number, last: number) => number>> = {
  ArrowDown: (at, last) => Math.min(last, at + 1),
  ArrowUp: (at) => Math.max(0, at - 1),
  Home: () => 0,
  End: (_, last) => last,
  PageDown: (at, last) => Math.min(last, at + 8),
  PageUp: (at) => Math.max(0, at - 8),
};

/** The row that a key leads to from one of them; undefined for any other key. */
export function rowAfter(key: string, from: string, rows: readonly string[]): string | undefined {
  const at = rows.indexOf(from);
  return rows[STEP[key]?.(Math.max(0, at), rows.length - 1) ?? -1];
}
