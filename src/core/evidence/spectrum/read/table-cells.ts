import { MAX_LINE } from './limits.ts';

/** A table as text: how its cells are parted and its decimals marked. */
export interface Dialect {
  readonly separator: '\t' | ';' | ',' | ' ';
  readonly decimal: '.' | ',';
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

function quotedCells(line: string, separator: string): string[] {
  const cells: string[] = [];
  let [cell, isQuoted] = ['', false];
  for (const c of line) {
    if (c === '"') isQuoted = !isQuoted;
    else if (c === separator && !isQuoted) {
      cells.push(cell);
      cell = '';
    } else cell += c;
  }
  return [...cells, cell];
}

/** The cells of a line, trimmed; empty ones at its end are dropped as far as two are left. */
export function cellsOf(line: string, { separator }: Dialect): string[] {
  if (line.length > MAX_LINE) return [];
  if (separator === ' ')
    return line.trim() === '' ? [] : line.trim().replaceAll('"', '').split(/\s+/);
  const cells = line.includes('"') ? quotedCells(line, separator) : line.split(separator);
  const trimmed = cells.map((cell) => cell.trim());
  while (trimmed.length > 2 && trimmed.at(-1) === '') trimmed.pop();
  return trimmed;
}

const MISSING = /^(?:nan|n\/?a|null|none|#n\/a|#value!|[+-]?inf(?:inity)?|\?|-+)?$/i;
const NUMBER = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[ed][+-]?\d+)?$/i;

/** The number of a cell, NaN where it says that there is none; undefined for a text. */
export function cellNumber(cell: string, decimal: Dialect['decimal']): number | undefined {
  if (cell.length > 40) return undefined;
  if (decimal === ',' && cell.includes('.')) return undefined;
  const plain = (decimal === ',' ? cell.replace(',', '.') : cell).replace('−', '-');
  if (NUMBER.test(plain)) return Number(/d/i.test(plain) ? plain.replace(/d/i, 'e') : plain);
  return MISSING.test(plain) ? Number.NaN : undefined;
}

/** How many numbers a line holds; 0 where one of its cells is a text, unless `isLoose`. */
function numbersIn(line: string, dialect: Dialect, isLoose: boolean): number {
  let numbers = 0;
  for (const cell of cellsOf(line, dialect)) {
    const value = cellNumber(cell, dialect.decimal);
    if (value === undefined && !isLoose) return 0;
    if (value !== undefined && !Number.isNaN(value)) numbers++;
  }
  return numbers;
}

/** Lines that are looked at to find the dialect; a preamble is not longer. */
const SAMPLE = 2000;

/** The dialect in which most lines are rows of two numbers or more; undefined where none is. */
export function dialectOf(lines: readonly string[]): Dialect | undefined {
  const sample = lines.slice(0, SAMPLE);
  for (const isLoose of [false, true]) {
    let [best, most] = [undefined as Dialect | undefined, 1];
    for (const dialect of DIALECTS) {
      const rows = sample.filter((line) => numbersIn(line, dialect, isLoose) >= 2).length;
      if (rows > most) [best, most] = [dialect, rows];
    }
    if (best !== undefined) return best;
  }
  return undefined;
}

/**
 * Commas between cells and commas in the numbers: 3996,00,98,93 and 3996,0,00467. Every cell is an
 * integer, and some begin with a zero that no integer would have.
 */
export function isCommaForBoth(
  rows: readonly (readonly string[])[],
  { separator }: Dialect,
): boolean {
  if (separator !== ',' || (rows[0]?.length ?? 0) < 3) return false;
  const cells = rows.slice(0, 200).flat();
  return (
    cells.every((cell) => /^[+-]?\d{1,20}$/.test(cell)) && cells.some((cell) => /^0\d/.test(cell))
  );
}
