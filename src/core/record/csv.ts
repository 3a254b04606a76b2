import { readUnitAt } from '../quantity/unit.ts';
import { asPlainText, csvCell, fromPlainText, parseCsv, separatorOf } from './csv-text.ts';
import type { CsvRow } from './csv-text.ts';
import type { BenchEntry, EntryKind } from './entry.ts';
import { shortestDecimals, writtenDecimals } from './entry.ts';
import { collect, tooLarge } from './intake.ts';
import type { Intake } from './intake.ts';
import { nearNames, plainName } from './near.ts';
import type { RecordDiagnostic } from './run.ts';

const COLUMNS = [
  'id',
  'at',
  'by',
  'document',
  'bench',
  'kind',
  'step',
  'item',
  'use',
  'vessel',
  'value',
  'high',
  'unit',
  'instrument',
  'n',
  'corrects',
  'attachments',
  'evidence',
  'text',
] as const;
type Column = (typeof COLUMNS)[number];

/** Other words that a heading answers to. */
const HEADINGS: Readonly<Record<string, Column>> = {
  time: 'at',
  date: 'at',
  when: 'at',
  name: 'by',
  who: 'by',
  initials: 'by',
  version: 'document',
  station: 'bench',
  what: 'kind',
  entry: 'kind',
  material: 'item',
  reagent: 'item',
  substance: 'item',
  flask: 'vessel',
  reading: 'value',
  units: 'unit',
  balance: 'instrument',
  number: 'n',
  remark: 'text',
  remarks: 'text',
  note: 'text',
  notes: 'text',
  attachment: 'attachments',
  photo: 'attachments',
  photos: 'attachments',
};

const KINDS: Readonly<Record<string, EntryKind>> = {
  charge: 'charge',
  charged: 'charge',
  taken: 'charge',
  'weighed out': 'charge',
  tare: 'tare',
  empty: 'tare',
  gross: 'gross',
  net: 'net',
  time: 'time',
  temperature: 'temperature',
  observation: 'observation',
  observed: 'observation',
  lot: 'lot',
  'melting range': 'meltingRange',
  meltingrange: 'meltingRange',
  mp: 'meltingRange',
  'm.p': 'meltingRange',
  evidence: 'evidence',
  correction: 'correction',
  corrected: 'correction',
};

/** What stands for the columns that a table written by hand leaves out. */
export interface CsvDefaults {
  readonly by?: string;
  readonly document?: string;
  readonly bench?: string;
  /** ISO 8601; each row is dated one second after the row before it. */
  readonly startAt?: string;
}

/**
 * A bench record from a table: comma, semicolon or tab; decimal point or comma; a unit in its own
 * column or behind the value. Without ids and times they are made from the row's number. A row
 * that cannot be read comes back as a diagnostic with its text.
 */
export function readCsvRecord(text: string, defaults: CsvDefaults = {}): Intake {
  const refusal = tooLarge(text);
  if (refusal !== undefined) return refusal;
  const plain = text.replace(/^\uFEFF/, '');
  const separator = separatorOf(plain);
  const [heading, ...rows] = parseCsv(plain, separator);
  if (heading === undefined) return { entries: [], diagnostics: [] };
  const diagnostics: RecordDiagnostic[] = [];
  const columns = columnsOf(heading, diagnostics);
  if (!columns.includes('kind')) return { entries: [], diagnostics: [noHeadings(heading)] };
  const start = Date.parse(defaults.startAt ?? '1970-01-01T00:00:00Z');
  const reader = { columns, separator, defaults, start: Number.isNaN(start) ? 0 : start };
  return collect(
    rows.map((row, i) => ({ text: row.text, line: row.line, read: () => rowOf(row, i, reader) })),
    diagnostics,
  );
}

function columnsOf(heading: CsvRow, diagnostics: RecordDiagnostic[]): (Column | undefined)[] {
  const taken = new Set<Column>();
  return heading.cells.map((cell) => {
    const name = plainName(cell);
    const known = (COLUMNS as readonly string[]).includes(name) ? (name as Column) : HEADINGS[name];
    if (known !== undefined && !taken.has(known)) {
      taken.add(known);
      return known;
    }
    if (name !== '') diagnostics.push(strangeColumn(heading, cell, known !== undefined));
    return undefined;
  });
}

function strangeColumn(heading: CsvRow, cell: string, twice: boolean): RecordDiagnostic {
  const near = nearNames(cell, COLUMNS);
  return {
    code: 'record-column',
    severity: 'warning',
    message: twice
      ? `The column "${cell}" is there twice; the first counts.`
      : `The column "${cell}" is not known, and what it holds is not read.`,
    hint: near.length > 0 ? `Perhaps "${near[0]!}".` : `Columns are: ${COLUMNS.join(', ')}.`,
    at: { line: heading.line, column: 1 },
  };
}

function noHeadings(heading: CsvRow): RecordDiagnostic {
  return {
    code: 'record-headings',
    severity: 'error',
    message: 'The first line of the table does not name its columns.',
    hint: 'Begin with a line such as: kind,step,item,vessel,value,unit',
    at: { line: heading.line, column: 1 },
    text: heading.text,
  };
}

interface RowReader {
  readonly columns: readonly (Column | undefined)[];
  readonly separator: string;
  readonly defaults: CsvDefaults;
  readonly start: number;
}

/** The row as an object for the schema to judge, or the reason why it is none. */
function rowOf(
  row: CsvRow,
  index: number,
  reader: RowReader,
):
  | { readonly fields: Record<string, unknown> }
  | { readonly problem: string; readonly hint: string } {
  const cells: Partial<Record<Column, string>> = {};
  for (const [i, cell] of row.cells.entries()) {
    const column = reader.columns[i];
    if (column !== undefined && cell !== '') cells[column] = fromPlainText(cell);
    else if (column === undefined && i >= reader.columns.length && cell.trim() !== '') {
      return { problem: 'has more cells than the heading', hint: quoteHint(reader.separator) };
    }
  }
  const kind = KINDS[plainName(cells.kind ?? '')];
  if (kind === undefined) {
    const near = nearNames(cells.kind ?? '', Object.keys(KINDS));
    return {
      problem: cells.kind === undefined ? 'has no kind' : `has the unknown kind "${cells.kind}"`,
      hint: near.length > 0 ? `Perhaps "${near[0]!}".` : 'For example charge, tare, gross or net.',
    };
  }
  const { value: valueText, high: highText, unit, n, attachments, kind: _kind, ...rest } = cells;
  const { evidence: evidenceText, ...texts } = rest;
  const evidence = evidenceText === undefined ? undefined : readObject(evidenceText);
  if (evidence !== undefined && 'problem' in evidence) return evidence;
  const fields: Record<string, unknown> = {
    ...textDefaults(index, reader),
    ...texts,
    kind,
    ...(n === undefined ? {} : { n: Number(n) }),
    ...(unit === undefined ? {} : { unit }),
    ...(attachments === undefined ? {} : { attachments: attachments.trim().split(/\s+/) }),
    ...(evidence === undefined ? {} : { evidence: evidence.value }),
  };
  if (valueText === undefined) return { fields };
  const value = readValue(valueText, reader.separator, unit);
  if ('problem' in value) return value;
  const high = highText === undefined ? undefined : readValue(highText, reader.separator, unit);
  if (high !== undefined && 'problem' in high) return high;
  Object.assign(fields, value, high === undefined ? {} : { high: high.value });
  return { fields };
}

/** A measurement of identity or purity is one JSON object in its cell. */
function readObject(
  cell: string,
): { readonly value: unknown } | { readonly problem: string; readonly hint: string } {
  try {
    return { value: JSON.parse(cell) as unknown };
  } catch {
    return {
      problem: 'has evidence that is no JSON',
      hint: 'Enter the measurement on the page, or copy the cell from a record that was written out.',
    };
  }
}

function textDefaults(index: number, { defaults, start }: RowReader): Record<string, unknown> {
  return {
    id: `row ${index + 2}`,
    at: new Date(start + index * 1000).toISOString(),
    by: defaults.by ?? '',
    ...(defaults.document === undefined ? {} : { document: defaults.document }),
    ...(defaults.bench === undefined ? {} : { bench: defaults.bench }),
  };
}

function quoteHint(separator: string): string {
  return separator === ','
    ? 'Put a text that holds a comma in double quotes.'
    : 'Put a text that holds the separator in double quotes.';
}

interface ReadValue {
  readonly value: number;
  readonly high?: number;
  readonly decimals?: number;
  readonly unit?: string;
}
type ValueReading = ReadValue | { readonly problem: string; readonly hint: string };

const NUMBER = '[-+\u2212]?(?:\\d+(?:[.,]\\d*)?|[.,]\\d+)(?:[eE][-+]?\\d+)?';
const VALUE = new RegExp(`^(${NUMBER})(?:\\s*(?:[\u2013\u2212-]|to)\\s*(${NUMBER}))?\\s*(.*)$`);

/** "1.1203", "1,1203", "1.1203 g", "121.5–122.3 °C" */
function readValue(cell: string, separator: string, unit?: string): ValueReading {
  const text = cell.trim().replace(/[\u00A0\u202F\u2009]/g, ' ');
  const match = VALUE.exec(text);
  const value = match?.[1] === undefined ? undefined : readNumber(match[1], separator);
  const high = match?.[2] === undefined ? undefined : readNumber(match[2], separator);
  const bad = {
    problem: `has the value "${cell}", which is no number`,
    hint: 'For example 1.1203',
  };
  if (match === null || value === undefined) return bad;
  if (value === 'ambiguous' || high === 'ambiguous') {
    return {
      problem: `has the value "${cell}", which may be meant in thousands`,
      hint: 'Write it with a decimal point, or without a comma.',
    };
  }
  const behind = (match[3] ?? '').trim();
  if (behind !== '' && readUnitAt(behind, 0)?.end !== behind.length && behind !== unit) return bad;
  if (behind !== '' && unit !== undefined && behind !== unit) {
    return { problem: `has the unit "${behind}" and the unit "${unit}"`, hint: 'Keep one.' };
  }
  return {
    value: value.value,
    ...(value.decimals > shortestDecimals(value.value) ? { decimals: value.decimals } : {}),
    ...(high === undefined ? {} : { high: high.value }),
    ...(behind === '' ? {} : { unit: behind }),
  };
}

/** With semicolons between the cells a comma is a decimal comma; else three digits are in doubt. */
function readNumber(
  text: string,
  separator: string,
): { readonly value: number; readonly decimals: number } | 'ambiguous' | undefined {
  if (separator === ',' && /^[-+\u2212]?[1-9]\d{0,2},\d{3}$/.test(text)) return 'ambiguous';
  const plain = text.replace('\u2212', '-').replace(',', '.');
  const value = Number(plain);
  if (!Number.isFinite(value)) return undefined;
  const [digits = '', exponent = '0'] = plain.toLowerCase().split('e');
  const point = digits.indexOf('.');
  const written = point < 0 ? 0 : digits.length - point - 1;
  return { value: value + 0, decimals: Math.min(12, Math.max(0, written - Number(exponent))) };
}

const KIND_WORD: Readonly<Partial<Record<EntryKind, string>>> = { meltingRange: 'melting range' };

/** The record as a table with every column; `readCsvRecord` reads it back as it was. */
export function printCsvRecord(entries: readonly BenchEntry[]): string {
  const lines = [COLUMNS.join(',')];
  for (const entry of entries) {
    lines.push(COLUMNS.map((column) => csvCell(cellOf(entry, column))).join(','));
  }
  return `${lines.join('\r\n')}\r\n`;
}

function cellOf(entry: BenchEntry, column: Column): string {
  if (column === 'kind') return KIND_WORD[entry.kind] ?? entry.kind;
  if (column === 'value') return entry.value === undefined ? '' : printValue(entry);
  if (column === 'attachments') return entry.attachments?.join(' ') ?? '';
  if (column === 'evidence')
    return entry.evidence === undefined ? '' : JSON.stringify(entry.evidence);
  const value = entry[column];
  if (value === undefined) return '';
  return typeof value === 'number' ? String(value) : asPlainText(value);
}

function printValue(entry: BenchEntry): string {
  const value = entry.value!;
  const decimals = writtenDecimals(entry);
  const fixed = value.toFixed(Math.min(decimals, 100));
  return Number(fixed) === value && !fixed.includes('e') && Math.abs(value) < 1e15
    ? fixed
    : String(value);
}
