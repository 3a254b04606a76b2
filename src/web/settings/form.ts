import type { Balance, Glassware, Settings } from '../../wire/settings.ts';
import { BALANCE_COLUMNS, GLASS_COLUMNS } from './column.ts';
import type { Column } from './column.ts';
import { figureIn, figureText } from './figure-in.ts';

/** An instrument as it is being typed: text, so that nothing is lost that is no number yet. */
export interface Row {
  readonly id: string;
  readonly name: string;
  readonly figures: Readonly<Record<string, string>>;
  /** Taken out, but still in its place with a way back, until the page is left. */
  readonly removed?: true;
}

export interface Form extends Pick<Settings, 'decimalSign' | 'terms' | 'paper'> {
  readonly balances: readonly Row[];
  readonly glassware: readonly Row[];
}

export type Table = 'balances' | 'glassware';

export const COLUMNS: Readonly<Record<Table, readonly Column[]>> = {
  balances: BALANCE_COLUMNS,
  glassware: GLASS_COLUMNS,
};

const MOST_ROWS: Readonly<Record<Table, number>> = { balances: 100, glassware: 200 };
export const LONGEST_NAME = 80;

/** What is wrong with a figure as typed, in a sentence; undefined where it can stand or is empty. */
export function wrongFigure(text: string, column: Column): string | undefined {
  if (text.trim() === '') return undefined;
  const value = figureIn(text);
  if (value === undefined) return `Write a number, in ${column.unit}.`;
  if (value > column.most) return `That is more than ${column.most} ${column.unit}.`;
  if (value === 0 && !column.zero) return 'That has to be more than 0.';
  return undefined;
}

/** What a row still lacks before it can be kept, by the titles of its columns. */
export function missingIn(row: Row, table: Table): string[] {
  const figures = COLUMNS[table].filter(({ key }) => (row.figures[key] ?? '').trim() === '');
  return [...(row.name.trim() === '' ? ['Name'] : []), ...figures.map(({ title }) => title)];
}

function isComplete(row: Row, table: Table): boolean {
  return (
    missingIn(row, table).length === 0 &&
    COLUMNS[table].every(
      (column) => wrongFigure(row.figures[column.key] ?? '', column) === undefined,
    )
  );
}

function rowOf(each: Balance | Glassware, table: Table, decimalSign: '.' | ','): Row {
  const values: Readonly<Record<string, unknown>> = { ...each };
  return {
    id: each.id,
    name: each.name,
    figures: Object.fromEntries(
      COLUMNS[table].map(({ key }) => [key, figureText(Number(values[key]), decimalSign)]),
    ),
  };
}

/** The form of what is kept; rows of a draft that could not be kept yet stand in it as typed. */
export function formOf(settings: Settings, draft?: Form): Form {
  const { decimalSign, terms, paper } = settings;
  const rows = (table: Table): Row[] => {
    const pending = (draft?.[table] ?? []).filter(
      (row) => row.removed !== true && !isComplete(row, table),
    );
    const kept = settings[table].map(
      (each) => pending.find(({ id }) => id === each.id) ?? rowOf(each, table, decimalSign),
    );
    return [...kept, ...pending.filter(({ id }) => kept.every((row) => row.id !== id))];
  };
  return { decimalSign, terms, paper, balances: rows('balances'), glassware: rows('glassware') };
}

/** Some rows are not whole yet, so that a draft of them has to stay on this device. */
export function hasPending(form: Form): boolean {
  return (['balances', 'glassware'] as const).some((table) =>
    form[table].some((row) => row.removed !== true && !isComplete(row, table)),
  );
}

/**
 * The part of a form that can be kept. A row that is no longer whole counts as it was kept before,
 * so that emptying a field on the way to another number takes nothing away.
 */
export function settingsOf(form: Form, kept: Settings): Settings {
  const { decimalSign, terms, paper } = form;
  const rows = <T extends Balance | Glassware>(table: Table, before: readonly T[]): T[] =>
    form[table]
      .filter(({ removed }) => removed !== true)
      .flatMap((row) => {
        if (isComplete(row, table)) return [instrumentOf<T>(row, table)];
        return before.filter(({ id }) => id === row.id);
      })
      .slice(0, MOST_ROWS[table]);
  return {
    decimalSign,
    terms,
    paper,
    balances: rows('balances', kept.balances),
    glassware: rows('glassware', kept.glassware),
  };
}

/** Of a complete row. */
function instrumentOf<T extends Balance | Glassware>(row: Row, table: Table): T {
  const figures = COLUMNS[table].map(({ key }) => [key, figureIn(row.figures[key]!)]);
  return {
    id: row.id,
    name: row.name.trim().slice(0, LONGEST_NAME),
    ...Object.fromEntries(figures),
  } as T;
}

/** The instrument that a row makes, where it is whole: to say what it is worth. */
export function ownInstrument(row: Row, table: Table): Balance | Glassware | undefined {
  return isComplete(row, table) ? instrumentOf(row, table) : undefined;
}
