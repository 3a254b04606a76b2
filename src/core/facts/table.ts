/** A compiled table: columns, rows of text, and each row's source by its place in `sources`. */
export interface Table {
  readonly columns: readonly string[];
  readonly sources: readonly string[];
  readonly rows: readonly (readonly (string | number)[])[];
}

/** The rows of a compiled table as records of text; `source` is spelled out again. */
export function rowsOf(table: Table): Record<string, string>[] {
  const sourceColumn = table.columns.indexOf('source');
  return table.rows.map((row) => {
    const record: Record<string, string> = {};
    table.columns.forEach((column, i) => {
      const cell = row[i] ?? '';
      record[column] = i === sourceColumn ? (table.sources[Number(cell)] ?? '') : String(cell);
    });
    return record;
  });
}

/** A number, or undefined where the cell is empty or no number. */
export function numberIn(cell: string | undefined): number | undefined {
  if (cell === undefined || cell.trim() === '') return undefined;
  const value = Number(cell);
  return Number.isFinite(value) ? value : undefined;
}
