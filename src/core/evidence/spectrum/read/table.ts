import type { FileReading, MeasuredTrace, TraceTechnique } from '../trace.ts';
import { finishTrace } from './finish-trace.ts';
import { refusal, warning } from './finding.ts';
import { normalLabel } from './labelled-record.ts';
import { isWholeCurve } from './read-series.ts';
import { chooseColumns, firstUnit, type Columns } from './table-columns.ts';
import { rowsIn, type Rows } from './table-rows.ts';
import { unitWarnings, xUnitFromValues, yUnitFromValues } from './table-units.ts';
import { percentOf, techniqueNamed, techniqueOf, xUnitOf, yUnitOf } from './units.ts';

/** Lines such as "Resolution: 4 cm-1" above a table. */
function headersFrom(lines: readonly string[]): Record<string, string> {
  const headers: Record<string, string> = {};
  for (const line of lines.slice(0, 500)) {
    const bare = line.replace(/^\s*(?:#|\/\/)?\s*/, '');
    const at = bare.search(/[:=\t;,]/);
    const label = at < 0 || at > 60 ? '' : normalLabel(bare.slice(0, at));
    if (label !== '' && !(label in headers)) headers[label] = bare.slice(at + 1).trim();
  }
  return headers;
}

const titleOf = (preamble: readonly string[], name: string | undefined): string => {
  const [first = ''] = preamble;
  const bare = first
    .replace(/^\s*(?:#|\/\/)?\s*/, '')
    .replaceAll('"', '')
    .trim();
  return bare === '' ? (name ?? '').replace(/\.[a-z0-9]{1,5}$/i, '') : bare.slice(0, 200);
};

/** Both numbers of x must be there; a row without one is left out. */
function paired(
  rows: Rows,
  x: number,
  y: number,
): { x: Float64Array; y: Float64Array; lost: number } {
  const xs = rows.columns[x]!;
  const ys = rows.columns[y]!;
  const keep = Array.from(xs, (value, i) => (Number.isFinite(value) ? i : -1)).filter(
    (i) => i >= 0,
  );
  return {
    x: Float64Array.from(keep, (i) => xs[i]!),
    y: Float64Array.from(keep, (i) => (Number.isFinite(ys[i]) ? ys[i]! : Number.NaN)),
    lost: xs.length - keep.length,
  };
}

function techniqueIn(
  words: readonly string[],
  preamble: readonly string[],
): TraceTechnique | undefined {
  for (const line of [...words, ...preamble.slice(0, 40)]) {
    const named = techniqueNamed(line.slice(0, 200));
    if (named !== undefined) return named;
  }
  return undefined;
}

/** A table that says so leaves nothing to be guessed from the values. */
const saidUnknown = (words: readonly string[]): 'unknown' | undefined =>
  words.some((line) => /\bunit not known\b/i.test(line)) ? 'unknown' : undefined;

function traceOf(
  rows: Rows,
  columns: Columns,
  column: number,
  preamble: readonly string[],
  name: string | undefined,
): MeasuredTrace {
  const { words } = columns;
  const { x, y, lost } = paired(rows, columns.x, column);
  const namedX = firstUnit(words[columns.x]!, xUnitOf) ?? saidUnknown(words[columns.x]!);
  const namedY = firstUnit(words[column]!, yUnitOf) ?? saidUnknown(words[column]!);
  const xUnit = namedX ?? xUnitFromValues(x);
  const yUnit = namedY ?? yUnitFromValues(y);
  const unitTechnique = techniqueOf(xUnit, yUnit);
  const said = techniqueIn([...words[columns.x]!, ...words[column]!], preamble);
  // A wavenumber axis is infrared or Raman, whatever else a preamble mentions.
  const technique = said === 'raman' || unitTechnique === 'unknown' ? said : unitTechnique;
  const isSeveral = columns.y.length > 1;
  const own = words[column]?.[0] ?? `column ${column + 1}`;
  const title = titleOf(preamble, name);
  const dropped =
    lost === 0
      ? []
      : [warning('rows-left-out', { message: `${lost} rows without an x were left out.` })];
  return finishTrace({
    title: isSeveral ? [title, own].filter((part) => part !== '').join(': ') : title,
    technique: technique ?? 'unknown',
    kind: xUnit === 'm/z' && !isWholeCurve(x, 'mass') ? 'peaks' : 'curve',
    x,
    y,
    xUnit,
    yUnit,
    saysPercent: words[column]!.map(percentOf).find((says) => says !== undefined),
    isDeclared: words[column]!.some((line) => /\bas a fraction\b/i.test(line)),
    headers: headersFrom(preamble),
    warnings: [
      ...rows.warnings,
      ...columns.warnings,
      ...dropped,
      ...unitWarnings(
        { unit: xUnit, isNamed: namedX !== undefined },
        { unit: yUnit, isNamed: namedY !== undefined },
      ),
    ],
  });
}

/** Reads a table of numbers in any dialect; each column beside the axis is a trace. */
export function readTable(text: string, name?: string): FileReading {
  const rows = rowsIn(text);
  if (!('columns' in rows)) return { ok: false, problem: rows };
  const columns = chooseColumns(rows);
  if (!('words' in columns)) return { ok: false, problem: columns };
  const preamble = rows.above.slice(0, rows.above.length - columns.headerLines);
  const traces = columns.y.map((column) => traceOf(rows, columns, column, preamble, name));
  if (traces.every(({ x }) => x.length < 2)) {
    const message = 'The table has fewer than two rows.';
    return { ok: false, problem: refusal('file-no-data', { message }) };
  }
  return { ok: true, format: 'table', traces };
}
