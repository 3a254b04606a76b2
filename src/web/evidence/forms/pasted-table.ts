import { cellNumber, cellsOf } from '../../../core/evidence/spectrum/read/table-cells.ts';
import type { Dialect } from '../../../core/evidence/spectrum/read/table-cells.ts';

/** One line of a table with its number in the text, from 1; a cell is a number or a text. */
export interface PastedRow {
  readonly line: number;
  readonly cells: readonly (number | string)[];
}

export interface PastedTable {
  /** What stands over the columns; empty where no line does. */
  readonly headings: readonly string[];
  readonly rows: readonly PastedRow[];
  /** Lines below the first row that hold fewer than two numbers, by their number in the text. */
  readonly unread: readonly number[];
}

/** In the order in which they are believed where several fit as well. */
const DIALECTS: readonly Dialect[] = [
  { separator: '\t', decimal: '.' },
  { separator: '\t', decimal: ',' },
  { separator: ';', decimal: '.' },
  { separator: ';', decimal: ',' },
  { separator: ',', decimal: '.' },
  { separator: ' ', decimal: '.' },
  { separator: ' ', decimal: ',' },
];

interface Line {
  readonly at: number;
  readonly text: string;
}

const GROUPED_BY_COMMA = /^-?\d{1,3}(?:,\d{3})+(?:\.\d+)?$/;
const GROUPED_BY_POINT = /^-?\d{1,3}(?:\.\d{3})+,\d+$/;

/**
 * "12,345.6" and "12 345" are numbers too. A lone comma before three digits parts thousands only
 * where the table elsewhere shows a point in its numbers.
 */
function ungrouped(cell: string, { separator, decimal }: Dialect, hasPoints: boolean): string {
  const close = isPlain({ separator, decimal })
    ? cell.replace(/(?<=\d)[ \u00a0\u202f'’](?=\d{3}(?!\d))/g, '')
    : cell;
  if (decimal === ',') return GROUPED_BY_POINT.test(close) ? close.replaceAll('.', '') : close;
  const grouped = GROUPED_BY_COMMA.test(close) && (hasPoints || close.split(',').length > 2);
  return grouped ? close.replaceAll(',', '') : close;
}

function rowOf(line: Line, dialect: Dialect, hasPoints: boolean): PastedRow {
  const cells = cellsOf(line.text, dialect).map((cell) => {
    const value = cellNumber(ungrouped(cell, dialect, hasPoints), dialect.decimal);
    return value === undefined || Number.isNaN(value) ? cell : value;
  });
  return { line: line.at, cells };
}

const isRow = ({ cells }: PastedRow): boolean =>
  cells.filter((cell) => typeof cell === 'number').length >= 2;

/** Parted by what stands in no number. */
const isPlain = ({ separator }: Dialect): boolean => separator === '\t' || separator === ';';

type Cell = PastedRow['cells'][number];

const isNumber = (cell: Cell): boolean => typeof cell === 'number';
/** Digits that make no number: cut in the wrong places. */
const isMangled = (cell: Cell): boolean => typeof cell === 'string' && /^[\d\s.,;]+$/.test(cell);

const count = (rows: readonly PastedRow[], is: (cell: Cell) => boolean): number =>
  rows.flatMap(({ cells }) => cells).filter(is).length;

/**
 * A table as it was copied from a report or typed: cells parted by tabs, semicolons, commas or
 * blanks, numbers with either decimal sign. Undefined where no line holds two numbers.
 */
export function pastedTable(text: string): PastedTable | undefined {
  const lines = text
    .split(/\r\n?|\n/)
    .map((line, i): Line => ({ at: i + 1, text: line }))
    .filter((line) => line.text.trim() !== '');
  const hasPoints = /\d\.\d/.test(text);
  const readings = DIALECTS.map((dialect) => {
    const all = lines.map((line) => rowOf(line, dialect, hasPoints));
    return { dialect, all, rows: all.filter(isRow) };
  });
  const [best] = readings.toSorted(
    (a, b) =>
      b.rows.length - a.rows.length ||
      Number(isPlain(b.dialect)) - Number(isPlain(a.dialect)) ||
      count(b.rows, isNumber) - count(a.rows, isNumber) ||
      count(a.rows, isMangled) - count(b.rows, isMangled),
  );
  const first = best?.rows[0];
  if (best === undefined || first === undefined) return undefined;
  const above = lines.filter(({ at }) => at < first.line);
  return {
    headings: headingsOf(above, best.dialect, first.cells.length),
    rows: best.rows,
    unread: best.all.filter((row) => row.line > first.line && !isRow(row)).map(({ line }) => line),
  };
}

/** The nearest line above the numbers that has a word for each column; the units under it too. */
function headingsOf(above: readonly Line[], dialect: Dialect, columns: number): readonly string[] {
  const fitting = above
    .map(({ text }) => cellsOf(text, dialect))
    .filter((cells) => cells.length === columns && cells.some((cell) => /\p{L}/u.test(cell)))
    .slice(-2);
  if (fitting.length === 0) return [];
  return Array.from({ length: columns }, (_, c) =>
    fitting
      .map((cells) => cells[c] ?? '')
      .join(' ')
      .trim(),
  );
}

/** The columns that hold numbers all the way down, a count of the lines left out. */
export function numberColumns({ rows }: PastedTable): readonly number[] {
  const width = rows[0]?.cells.length ?? 0;
  const columns = Array.from({ length: width }, (_, c) => c).filter((c) =>
    rows.every(({ cells }) => typeof cells[c] === 'number'),
  );
  const [first] = columns;
  const counts = first !== undefined && rows.every(({ cells }, i) => cells[first] === i + 1);
  return counts && columns.length > 2 ? columns.slice(1) : columns;
}
