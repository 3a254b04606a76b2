import type { Diagnostic } from '../../../diagnostic.ts';
import { lineAt, note, refusal } from './finding.ts';
import { headerNumber } from './number-scan.ts';
import type { OrdinateFault } from './ordinates.ts';
import type { Series } from './series.ts';

/** What the readers of even and of paired data share: headers as numbers, and how faults are told. */

export interface Curve {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly warnings: readonly Diagnostic[];
}

export type Headers = Readonly<Record<string, string>>;

/** Headers in which a comma can only be a decimal sign. */
const NUMERIC = [
  'FIRSTX',
  'LASTX',
  'DELTAX',
  'XFACTOR',
  'YFACTOR',
  'FIRSTY',
  'MAXX',
  'MAXY',
  'MINY',
];

export const hasDecimalComma = (headers: Headers): boolean =>
  NUMERIC.some((label) => /^\s*[+-]?\d*,\d/.test((headers[label] ?? '').slice(0, 60)));

const OF_FAULT: Record<OrdinateFault['kind'], readonly [code: string, begins: string]> = {
  check: ['file-check-fails', 'A check value does not agree: '],
  character: ['file-unreadable', 'The data cannot be read here: '],
  abscissa: ['file-unreadable', 'The data cannot be read here: '],
  form: ['file-unreadable', 'The data cannot be read here: '],
  many: ['file-too-many', 'The file holds more points than are read: '],
};

function lineStart(text: string, series: Series, line: number): number {
  let at = series.at;
  for (let i = 0; i < line; i++) at = text.indexOf('\n', at) + 1;
  return at;
}

/** A fault in the very last line of a file without an end is a cut, whatever it looks like. */
export function faultOf(fault: OrdinateFault, text: string, series: Series): Diagnostic {
  const line = series.line + fault.line;
  const isLast = !series.isFollowed && text.indexOf('\n', lineStart(text, series, fault.line)) < 0;
  if (isLast && fault.kind !== 'many')
    return refusal('file-cut-off', {
      message: 'The file breaks off in its last line.',
      hint: 'Copy or export the file again.',
      line,
    });
  const [code, begins] = OF_FAULT[fault.kind];
  return refusal(code, {
    message: `${begins}${fault.reason}.`,
    hint: 'Export the spectrum again, or as XY pairs.',
    line,
  });
}

export function pointsOf(headers: Headers): number | undefined {
  const written = headers['NPOINTS']?.trim();
  if (written === undefined || written === '') return undefined;
  const grouped = /^\d{1,3}(?:,\d{3})+$/.test(written) ? written.replaceAll(',', '') : written;
  const value = headerNumber(grouped)?.value;
  return value !== undefined && Number.isInteger(value) ? value : undefined;
}

export function factorOf(headers: Headers, label: string): number {
  const value = headerNumber(headers[label])?.value;
  return value === undefined || value === 0 ? 1 : value;
}

/** Whether the last number may have lost figures: nothing stands behind it, not even a line end. */
export const mayBeCut = (text: string, series: Series): boolean =>
  !series.isFollowed && text.charCodeAt(series.end - 1) !== 10;

export function commaNotes(decimalComma: boolean, line: number): Diagnostic[] {
  if (!decimalComma) return [];
  return [note('file-decimal-comma', { message: 'The file writes decimals with a comma.', line })];
}

export const empty = (line: number): Diagnostic =>
  refusal('file-no-data', { message: 'The record has no data.', line });

export function cutOff(text: string, { end }: Series): Diagnostic {
  return refusal('file-cut-off', {
    message: 'The file breaks off behind its last number, which may have lost figures.',
    hint: 'Copy or export the file again. A whole file ends in ##END=.',
    line: lineAt(text, end),
  });
}
