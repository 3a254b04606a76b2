import type { Diagnostic } from '../../../diagnostic.ts';
import { refusal, shown, warning } from './finding.ts';
import { headerNumber, scaling, type Written } from './number-scan.ts';
import { ordinateWarnings } from './ordinate-check.ts';
import type { OrdinateFault } from './ordinates.ts';
import { decodeGroups, decodePairs, type Pairs } from './pairs.ts';
import {
  commaNotes,
  cutOff,
  empty,
  factorOf,
  faultOf,
  hasDecimalComma,
  mayBeCut,
  pointsOf,
  type Curve,
} from './series-data.ts';
import type { Series } from './series.ts';

/** Does a reading of pairs agree with what the headers say of the number of points and the ends? */
function pairsAgree({ x }: Pairs, points: number | undefined, first: Written | undefined): boolean {
  if (points !== undefined && points !== x.length) return false;
  return first === undefined || x.length === 0 || Math.abs(x[0]! - first.value) <= 1;
}

/** Commas part numbers in the standard; where that contradicts the headers they may be decimal signs. */
function decodeEither(
  text: string,
  series: Series,
  room: number,
): (Pairs & { readonly decimalComma: boolean }) | OrdinateFault {
  const { headers, start, end } = series;
  const points = pointsOf(headers);
  const first = headerNumber(headers['FIRSTX']);
  const isComma = hasDecimalComma(headers);
  const usual = decodePairs(text, start, end, { decimalComma: isComma, room });
  const isRight = !('reason' in usual) && pairsAgree(usual, points, first);
  const other = isRight ? usual : decodePairs(text, start, end, { decimalComma: !isComma, room });
  const isOther =
    !isRight && !('reason' in other) && points !== undefined && pairsAgree(other, points, first);
  const taken = isOther ? other : usual;
  return 'reason' in taken ? taken : { ...taken, decimalComma: isComma !== isOther };
}

function pairWarnings(series: Series, x: Float64Array, unit: number, line: number): Diagnostic[] {
  const ends: readonly (readonly [string, number | undefined])[] = [
    ['FIRSTX', x[0]],
    ['LASTX', x.at(-1)],
  ];
  return ends.flatMap(([label, value]) => {
    const said = headerNumber(series.headers[label]);
    if (said === undefined || value === undefined) return [];
    if (Math.abs(said.value - value) <= said.unit + unit) return [];
    const message = `${label} says ${shown(said.value)}, the pairs have ${shown(value)}.`;
    return [warning('file-range-header', { message, line })];
  });
}

/** Pairs carry their own x, so that a wrong NPOINTS moves nothing; but then the last x must be there. */
function countOfPairs(series: Series, x: Float64Array, unit: number, line: number): Diagnostic[] {
  const said = pointsOf(series.headers);
  if (said === undefined || said === x.length) return [];
  const last = headerNumber(series.headers['LASTX']);
  const isThere =
    series.isFollowed && last !== undefined && Math.abs(last.value - x.at(-1)!) <= last.unit + unit;
  const message = `NPOINTS says ${said}, the data hold ${x.length}.`;
  if (isThere) return [warning('file-points-header', { message, line })];
  const code = series.isFollowed || x.length > said ? 'file-points-differ' : 'file-cut-off';
  return [refusal(code, { message, hint: 'Copy or export the file again.', line })];
}

function groupsIn(body: string, letters: string): Pairs | OrdinateFault {
  const lines = body.split('\n').map((line) => line.split('$$')[0]!);
  return decodeGroups(lines.join('\n'), letters);
}

/** Reads (XY..XY) and groups of more than two fields: every value with its own x. */
export function readPairs(text: string, series: Series, room: number): Curve | Diagnostic {
  const { form, start, end, headers } = series;
  const { line } = series;
  const letters = (form.split('..')[0] ?? '').replace(/[^A-Z]/g, '');
  const isGrouped = letters.length > 2 || series.label === 'PEAKASSIGNMENTS';
  const pairs = isGrouped
    ? { ...groupsIn(text.slice(start, end), letters), decimalComma: false }
    : decodeEither(text, series, room);
  if ('reason' in pairs) return faultOf(pairs, text, series);
  if (pairs.x.length > room) return faultOf({ line: 0, kind: 'many', reason: '' }, text, series);
  if (pairs.x.length === 0) return empty(line);
  const x = pairs.x.map(scaling(factorOf(headers, 'XFACTOR')));
  const yFactor = factorOf(headers, 'YFACTOR');
  const y = pairs.y.map(scaling(yFactor));
  const count = isGrouped ? [] : countOfPairs(series, x, pairs.unit, line);
  const failed = count.find(({ severity }) => severity === 'error');
  if (failed !== undefined) return failed;
  if (mayBeCut(text, series) && !isGrouped) return cutOff(text, series);
  const warnings = isGrouped
    ? []
    : [
        ...commaNotes(pairs.decimalComma, line),
        ...pairWarnings(series, x, pairs.unit, line),
        ...ordinateWarnings(headers, y, yFactor, line),
      ];
  return { x, y, warnings: [...count, ...warnings] };
}
