import type { Paper } from './ink.ts';
import { padEnd, padStart, widthOf, wrap } from './text.ts';

export interface Column<Row> {
  readonly head: string;
  readonly cell: (row: Row) => string;
  /** `decimal`: numbers with their points under each other. Left where nothing is said. */
  readonly align?: 'left' | 'right' | 'decimal';
  /** May be broken over lines, down to this width. */
  readonly least?: number;
  /** How the cell's text is set, once its place is known. */
  readonly set?: (row: Row) => (text: string) => string;
  /** Left out first where the page is narrow: those with the highest number. 0 is never left out. */
  readonly spare?: number;
}

export interface PaintedTable {
  readonly text: string;
  /** The heads of columns that the page had no room for. */
  readonly leftOut: readonly string[];
}

const GAP = 2;

/** A table in columns, as wide as it needs to be and no wider than the page. */
export function paintTable<Row>(
  rows: readonly Row[],
  columns: readonly Column<Row>[],
  paper: Paper,
): PaintedTable {
  const cellsOf = new Map(columns.map((column) => [column, cellTexts(rows, column)]));
  const used = columns.filter((column) => cellsOf.get(column)!.some((cell) => cell !== ''));
  const shown = columnsThatFit(used, cellsOf, paper.width);
  const widths = fittedWidths(shown, cellsOf, paper.width);
  const leftOut = used.filter((column) => !shown.includes(column)).map((column) => column.head);

  const heads = shown.map((column, i) => wrap(column.head, widths[i]!));
  const lines = joinCells(heads, shown, widths, true).map((line) => paper.ink.bold(line));
  lines.push(paper.ink.faint(widths.map((width) => '─'.repeat(width)).join(' '.repeat(GAP))));
  rows.forEach((row, r) => {
    const cells = shown.map((column, i) => {
      const set = column.set?.(row) ?? ((text: string) => text);
      const cell = cellsOf.get(column)![r]!;
      const parts = column.least === undefined ? [cell] : wrap(cell, widths[i]!);
      return parts.map(set);
    });
    lines.push(...joinCells(cells, shown, widths, false));
  });
  return { text: lines.map((line) => line.trimEnd()).join('\n'), leftOut };
}

function cellTexts<Row>(rows: readonly Row[], column: Column<Row>): string[] {
  const cells = rows.map(column.cell);
  return column.align === 'decimal' ? alignPoints(cells) : cells;
}

/** Pads behind the last digit so that the points (or the ends of whole numbers) stand in line. */
function alignPoints(cells: readonly string[]): string[] {
  const behind = cells.map((cell) => /\d(\.\d*)?(?!.*\d)(.*)$/.exec(cell));
  const tail = (i: number) => {
    const cell = cells[i]!;
    if (behind[i] === null) return 0;
    const point = cell.search(/\.\d/);
    const end = point >= 0 ? point : cell.search(/\d(?!.*\d)/) + 1;
    return widthOf(cell.slice(end));
  };
  const longest = Math.max(0, ...cells.map((_, i) => tail(i)));
  return cells.map((cell, i) => (cell === '' ? cell : cell + ' '.repeat(longest - tail(i))));
}

type Cells<Row> = ReadonlyMap<Column<Row>, readonly string[]>;

function naturalWidth<Row>(column: Column<Row>, cells: readonly string[]): number {
  const head = column.least === undefined ? widthOf(column.head) : column.least;
  return Math.max(head, ...cells.map(widthOf));
}

function leastWidth<Row>(column: Column<Row>, cells: readonly string[]): number {
  const natural = naturalWidth(column, cells);
  return column.least === undefined ? natural : Math.min(natural, column.least);
}

function columnsThatFit<Row>(
  columns: readonly Column<Row>[],
  cellsOf: Cells<Row>,
  width: number,
): Column<Row>[] {
  const shown = [...columns];
  const needed = () =>
    shown.reduce((sum, column) => sum + leastWidth(column, cellsOf.get(column)!) + GAP, -GAP);
  while (needed() > width) {
    const dropped = shown.reduce((a, b) => ((b.spare ?? 0) >= (a.spare ?? 0) ? b : a), shown[0]!);
    if ((dropped?.spare ?? 0) === 0) break;
    shown.splice(shown.indexOf(dropped), 1);
  }
  return shown;
}

/** What room is left after the least widths goes to the columns that can be broken. */
function fittedWidths<Row>(
  columns: readonly Column<Row>[],
  cellsOf: Cells<Row>,
  width: number,
): number[] {
  const least = columns.map((column) => leastWidth(column, cellsOf.get(column)!));
  const wanted = columns.map((column) => naturalWidth(column, cellsOf.get(column)!));
  const widths = [...least];
  let spare = width - least.reduce((sum, w) => sum + w + GAP, -GAP);
  // A share for each that wants more, so that no one column takes all
  for (let open = hungry(); spare > 0 && open.length > 0; open = hungry()) {
    const share = Math.max(1, Math.floor(spare / open.length));
    for (const i of open) {
      const more = Math.min(share, spare, wanted[i]! - widths[i]!);
      widths[i]! += more;
      spare -= more;
    }
  }
  return widths;

  function hungry(): number[] {
    return widths.flatMap((w, i) => (w < wanted[i]! ? [i] : []));
  }
}

function joinCells<Row>(
  cells: readonly (readonly string[])[],
  columns: readonly Column<Row>[],
  widths: readonly number[],
  atFoot: boolean,
): string[] {
  const height = Math.max(1, ...cells.map((parts) => parts.length));
  return Array.from({ length: height }, (_, line) =>
    cells
      .map((parts, i) => {
        const part = parts[atFoot ? line - (height - parts.length) : line] ?? '';
        const left = (columns[i]!.align ?? 'left') === 'left';
        return left ? padEnd(part, widths[i]!) : padStart(part, widths[i]!);
      })
      .join(' '.repeat(GAP)),
  );
}
