import type { Diagnostic } from '../../../diagnostic.ts';
import { note, refusal, warning } from './finding.ts';
import type { Rows } from './table-rows.ts';
import { cellsOf } from './table-cells.ts';
import { xUnitOf, yUnitOf } from './units.ts';

/** Which column is x, which are y, and how the table calls them. */
export interface Columns {
  readonly x: number;
  readonly y: readonly number[];
  /** By column: the words above it, nearest line first. */
  readonly words: readonly (readonly string[])[];
  /** How many lines above the numbers belong to the columns. */
  readonly headerLines: number;
  readonly warnings: readonly Diagnostic[];
}

interface Shape {
  /** Share of steps in the direction that most take. */
  readonly steady: number;
  readonly isEven: boolean;
  readonly isConstant: boolean;
  readonly isCount: boolean;
}

function shapeOf(column: Float64Array): Shape {
  let [up, down, steps] = [0, 0, 0];
  let isCount = column[0] === 0 || column[0] === 1;
  const gaps: number[] = [];
  for (let i = 1; i < column.length; i++) {
    const gap = column[i]! - column[i - 1]!;
    if (Number.isNaN(gap)) continue;
    steps++;
    gaps.push(Math.abs(gap));
    if (gap > 0) up++;
    if (gap < 0) down++;
    if (gap !== 1) isCount = false;
  }
  const middle = gaps.toSorted((a, b) => a - b)[gaps.length >> 1] ?? 0;
  const even = gaps.filter((gap) => Math.abs(gap - middle) <= 0.1 * middle).length;
  return {
    steady: Math.max(up, down) / Math.max(1, column.length - 1),
    isEven: middle > 0 && even >= 0.9 * gaps.length,
    isConstant: steps > 0 && up === 0 && down === 0,
    isCount: isCount && steps > 0,
  };
}

const isName = (cell: string): boolean => cell !== '' && cell.length <= 60;

/** Lines right above the numbers that have a cell for each column: names, then perhaps units. */
function headerCells({ above, dialect, columns }: Rows): string[][] {
  const found: string[][] = [];
  for (const line of above.toReversed().slice(0, 3)) {
    const bare = line.replace(/^\s*(?:#|\/\/)\s*/, '');
    const cells = cellsOf(bare, dialect);
    const spaced = dialect.separator === ' ' ? bare.trim().split(/\s{2,}|\t|\s*[,;]\s*/) : cells;
    const fitting = [cells, spaced].find(({ length }) => length === columns.length);
    if (fitting === undefined || !fitting.some(isName)) break;
    found.push(fitting);
    if (fitting.some((cell) => xUnitOf(cell)) && fitting.some((cell) => yUnitOf(cell))) break;
  }
  return found;
}

const STEADY = 0.98;

function pickX(words: readonly (readonly string[])[], shapes: readonly Shape[]): number {
  const named = words.findIndex((lines, c) => {
    const [nearest = ''] = lines;
    return (xUnitOf(nearest) !== undefined || /^x\b/i.test(nearest)) && !shapes[c]!.isConstant;
  });
  if (named >= 0) return named;
  const steady = shapes.flatMap(({ steady: share }, c) => (share >= STEADY ? [c] : []));
  const real = steady.length > 1 ? steady.filter((c) => !shapes[c]!.isCount) : steady;
  const usable = real.length > 0 && shapes.length > 2 ? real : steady;
  return usable.find((c) => shapes[c]!.isEven) ?? usable[0] ?? -1;
}

/** The first line above a column from which the unit can be told, nearest first. */
export const firstUnit = <T>(
  lines: readonly string[],
  unitOf: (words: string) => T | undefined,
): T | undefined => {
  for (const words of lines) {
    const unit = unitOf(words);
    if (unit !== undefined) return unit;
  }
  return undefined;
};

function leftOut(names: readonly string[]): Diagnostic[] {
  if (names.length === 0) return [];
  const list = names.join(', ');
  return [
    note('columns-left-out', {
      message: `Left out: ${list}. Nothing varies there, or it is another x.`,
    }),
  ];
}

/**
 * x is the column that its header names so; without a header, the one that rises or falls steadily,
 * an even one first. Every other column that varies is a y.
 */
export function chooseColumns(rows: Rows): Columns | Diagnostic {
  const { columns } = rows;
  const found = headerCells(rows);
  const words = columns.map((_, c) => found.map((cells) => cells[c] ?? '').filter(isName));
  const shapes = columns.map(shapeOf);
  const x = pickX(words, shapes);
  if (x < 0 || columns.length < 2)
    return refusal('table-unclear', {
      message: 'No column rises or falls steadily, so that none can be the axis.',
      hint: 'Put the axis (wavenumber, time) into the first column and name the columns.',
    });
  const others = columns.map((_, c) => c).filter((c) => c !== x);
  const isOtherX = (c: number) =>
    (shapes[c]!.isCount && shapes[x]!.steady >= STEADY) ||
    (firstUnit(words[c]!, yUnitOf) === undefined && xUnitOf(words[c]?.[0] ?? '') !== undefined) ||
    columns[c]!.every((value, i) => value === columns[x]![i]);
  const varying = others.filter((c) => !shapes[c]!.isConstant && !isOtherX(c));
  const kept = varying.filter((c) => columns[c]!.some((value) => Number.isFinite(value)));
  const y = kept.length > 0 ? kept : others.filter((c) => !isOtherX(c));
  if (y.length === 0)
    return refusal('table-unclear', { message: 'The table has an axis and nothing beside it.' });
  const nameOf = (c: number) => words[c]?.[0] ?? `column ${c + 1}`;
  const isNamed = xUnitOf(words[x]?.[0] ?? '') !== undefined;
  const warnings = [
    ...(x > 0 && !isNamed
      ? [warning('columns-swapped', { message: `Column ${x + 1} was taken for the axis.` })]
      : []),
    ...leftOut(others.filter((c) => !y.includes(c)).map(nameOf)),
  ];
  return { x, y, words, headerLines: found.length, warnings };
}
