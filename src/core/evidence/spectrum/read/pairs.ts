import { numberScan, scanNumber } from './number-scan.ts';
import type { OrdinateFault } from './ordinates.ts';
import { collected, points, push } from './points.ts';

export interface Pairs {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** One unit of the last figure of the last x. */
  readonly unit: number;
}

const isBlank = (code: number): boolean => code === 32 || code === 9 || code === 10 || code === 59;

/**
 * Decodes (XY..XY): numbers by turns, parted by blanks, commas, semicolons or line ends; `?` is a
 * missing y. With `decimalComma` a comma between digits belongs to the number.
 */
export function decodePairs(
  text: string,
  start: number,
  end: number,
  { decimalComma, room }: { readonly decimalComma: boolean; readonly room: number },
): Pairs | OrdinateFault {
  const scan = numberScan(text, start, decimalComma);
  const x = points();
  const y = points();
  let unit = 1;
  let line = 0;
  let isX = true;
  while (scan.at < end) {
    const code = text.charCodeAt(scan.at);
    if (code === 10) line++;
    if (isBlank(code) || code === 44) {
      scan.at++;
    } else if (code === 36 && text.charCodeAt(scan.at + 1) === 36) {
      const newline = text.indexOf('\n', scan.at);
      scan.at = newline < 0 ? end : newline;
    } else if (code === 63 && !isX) {
      scan.at++;
      push(y, Number.NaN);
      isX = true;
    } else if (scanNumber(scan, end, true)) {
      push(isX ? x : y, scan.value);
      if (isX) unit = scan.unit;
      isX = !isX;
      if (y.count > room) return { line, kind: 'many', reason: 'too many points' };
    } else {
      const reason = `“${text.slice(scan.at, scan.at + 1)}” is not part of any number`;
      return { line, kind: 'character', reason };
    }
  }
  if (!isX) return { line, kind: 'form', reason: 'the last x has no y' };
  return { x: collected(x), y: collected(y), unit };
}

/** One group of a table of peaks: its fields as written. */
function fieldsOf(group: string): string[] {
  return group.split(',').map((field) => field.trim());
}

function groupsOf(body: string): string[] {
  if (!body.includes('(')) return body.split(/[\s;]+/).filter((group) => group !== '');
  const groups: string[] = [];
  for (let open = body.indexOf('('); open >= 0; open = body.indexOf('(', open + 1)) {
    const close = body.indexOf(')', open);
    if (close < 0) break;
    groups.push(body.slice(open + 1, close));
    open = close;
  }
  return groups;
}

/** A field that is one number and nothing else. */
function fieldNumber(field: string | undefined): number | undefined {
  if (field === undefined || field === '') return undefined;
  const scan = numberScan(field, 0, false);
  return scanNumber(scan, field.length, true) && scan.at === field.length ? scan.value : undefined;
}

/**
 * Decodes groups such as (XYM..XYM) or the peak assignments (XYMA): the letters say which field is x
 * and which is y; a group without a y has NaN there. Widths, multiplicities and assignments are left.
 */
export function decodeGroups(body: string, letters: string): Pairs | OrdinateFault {
  const places = [letters.indexOf('X'), letters.indexOf('Y')] as const;
  const x = points();
  const y = points();
  for (const group of groupsOf(body)) {
    const fields = fieldsOf(group);
    const position = fieldNumber(fields[places[0]]);
    if (position === undefined)
      return { line: 0, kind: 'form', reason: `“${group.slice(0, 40)}” has no position` };
    push(x, position);
    push(y, fieldNumber(fields[places[1]]) ?? Number.NaN);
  }
  return { x: collected(x), y: collected(y), unit: 0 };
}
