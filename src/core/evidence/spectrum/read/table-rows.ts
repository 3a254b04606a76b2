import type { Diagnostic } from '../../../diagnostic.ts';
import { refusal, warning } from './finding.ts';
import { MAX_POINTS } from './limits.ts';
import { cellNumber, cellsOf, dialectOf, isCommaForBoth, type Dialect } from './table-cells.ts';

/** The rows of numbers of a text, and what stands above them. */
export interface Rows {
  readonly dialect: Dialect;
  /** One array a column, NaN where a cell has no number. */
  readonly columns: readonly Float64Array[];
  /** Lines above the first row, empty ones left out. */
  readonly above: readonly string[];
  readonly warnings: readonly Diagnostic[];
}

/** More columns are not read: a spectrum has two, a series of spectra some dozen. */
const MAX_COLUMNS = 64;

type Row = readonly (number | undefined)[];

function rowOf(line: string, dialect: Dialect): Row {
  return cellsOf(line, dialect).map((cell) => cellNumber(cell, dialect.decimal));
}

const numbersOf = (row: Row): number =>
  row.filter((value) => value !== undefined && !Number.isNaN(value)).length;

/** Two numbers, or a number and places that say they have none. */
function beginsTable(row: Row): boolean {
  if (row.length < 2 || row[0] === undefined) return false;
  return (
    numbersOf(row) >= 2 || (Number.isFinite(row[0]) && row.every((cell) => cell !== undefined))
  );
}

/** The first line that is a row of numbers and is followed by another. */
function firstRow(lines: readonly string[], dialect: Dialect): number {
  let candidate = -1;
  for (let at = 0; at < lines.length; at++) {
    if (lines[at]!.trim() === '') continue;
    if (!beginsTable(rowOf(lines[at]!, dialect))) candidate = -1;
    else if (candidate >= 0) return candidate;
    else candidate = at;
  }
  return -1;
}

interface Gathered {
  readonly rows: Row[];
  readonly left: number[];
  /** Where a second table begins. */
  readonly next?: number;
}

const isComment = (line: string): boolean => /^[\s;,]*(?:#|\/\/|%|$)/.test(line);

/** Rows of the width of the first; a line of text after which numbers go on begins another table. */
function gather(lines: readonly string[], begin: number, dialect: Dialect): Gathered {
  const rows: Row[] = [];
  const left: number[] = [];
  const width = cellsOf(lines[begin]!, dialect).length;
  let text = -1;
  for (let at = begin; at < lines.length; at++) {
    const line = lines[at]!;
    if (isComment(line)) continue;
    const row = rowOf(line, dialect);
    const numbers = numbersOf(row);
    if (numbers === 0 && row[0] === undefined) {
      if (text < 0) text = at;
      left.push(at);
    } else if (row.length > width + 1 || row.length < Math.min(2, width) || numbers === 0)
      left.push(at);
    else if (text >= 0 && numbers >= 2)
      return { rows, left: left.filter((i) => i < text), next: text };
    else rows.push(row);
  }
  return { rows, left, ...(text >= 0 ? {} : {}) };
}

function leftWarnings({ left, next }: Gathered): Diagnostic[] {
  const warnings: Diagnostic[] = [];
  const [first] = left;
  if (first !== undefined)
    warnings.push(
      warning('rows-left-out', {
        message:
          left.length === 1
            ? 'This line is no row of the table and was left out.'
            : `${left.length} lines are no rows of the table and were left out. This is the first.`,
        line: first + 1,
      }),
    );
  if (next !== undefined)
    warnings.push(
      warning('table-goes-on', {
        message: 'Another table begins here. Only the first was read.',
        hint: 'Save each spectrum as a file of its own.',
        line: next + 1,
      }),
    );
  return warnings;
}

/** Finds the table of numbers in a text, in whatever dialect it is written. */
export function rowsIn(text: string): Rows | Diagnostic {
  const lines = text.split('\n');
  const dialect = dialectOf(lines);
  const begin = dialect === undefined ? -1 : firstRow(lines, dialect);
  if (dialect === undefined || begin < 0)
    return refusal('file-no-data', {
      message: 'No table of numbers was found: no two lines with two numbers each.',
      hint: 'Export the spectrum as a table with two columns, or as JCAMP-DX.',
    });
  const sample = lines.slice(begin, begin + 200).filter((line) => !isComment(line));
  if (
    isCommaForBoth(
      sample.map((line) => cellsOf(line, dialect)),
      dialect,
    )
  )
    return refusal('table-unclear', {
      message: 'Commas stand between the columns and seem to stand inside the numbers as well.',
      hint: 'Export with a semicolon or a tab between the columns.',
      line: begin + 1,
    });
  const gathered = gather(lines, begin, dialect);
  const { rows } = gathered;
  const width = Math.min(
    MAX_COLUMNS,
    rows.reduce((most, row) => Math.max(most, row.length), 0),
  );
  if (rows.length * Math.max(1, width - 1) > MAX_POINTS)
    return refusal('file-too-many', {
      message: `The table has ${rows.length} rows of ${width} columns. That is more than is read.`,
      hint: 'Split the file.',
    });
  const columns = Array.from({ length: width }, (_, c) =>
    Float64Array.from(rows, (row) => row[c] ?? Number.NaN),
  );
  const above = lines.slice(0, begin).filter((line) => line.trim() !== '');
  return { dialect, columns, above, warnings: leftWarnings(gathered) };
}
