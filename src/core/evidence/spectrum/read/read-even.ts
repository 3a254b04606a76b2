import type { Diagnostic } from '../../../diagnostic.ts';
import { abscissaAt, placeOnAxis } from './axis.ts';
import { refusal, shown, warning } from './finding.ts';
import { headerNumber, scaling } from './number-scan.ts';
import { ordinateWarnings } from './ordinate-check.ts';
import { decodeOrdinates } from './ordinates.ts';
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
  type Headers,
} from './series-data.ts';
import type { Series } from './series.ts';

function missingHeader(label: string, line: number): Diagnostic {
  return refusal('file-header-missing', {
    message: `${label} is missing or no number. Without it the axis is not known.`,
    hint: 'Export the spectrum again.',
    line,
  });
}

function limitWarnings(
  headers: Headers,
  x: Float64Array,
  step: number,
  line: number,
): Diagnostic[] {
  const ends = [x[0] ?? Number.NaN, x.at(-1) ?? Number.NaN];
  const limits = [
    ['MAXX', Math.max(...ends)],
    ['MINX', Math.min(...ends)],
  ] as const;
  return limits.flatMap(([label, value]) => {
    const said = headerNumber(headers[label]);
    if (said === undefined || Math.abs(said.value - value) <= said.unit + Math.abs(step)) return [];
    const message = `${label} says ${shown(said.value)}, the axis ends at ${shown(value)}.`;
    return [warning('file-range-header', { message, line })];
  });
}

/** Reads (X++(Y..Y)): values on an even axis, whose place every line and header must agree on. */
export function readEven(text: string, series: Series, room: number): Curve | Diagnostic {
  const { headers, start, end, isFollowed } = series;
  const { line } = series;
  const first = headerNumber(headers['FIRSTX']);
  const last = headerNumber(headers['LASTX']);
  const decimalComma = hasDecimalComma(headers);
  const decoded = decodeOrdinates(text, start, end, { decimalComma, room });
  if ('reason' in decoded) return faultOf(decoded, text, series);
  const { values, marks, endsInCheck } = decoded;
  if (values.length === 0) return empty(line);
  if (first === undefined) return missingHeader('FIRSTX', line);
  if (last === undefined) return missingHeader('LASTX', line);
  const delta = headerNumber(headers['DELTAX']);
  const points = pointsOf(headers);
  const factor = factorOf(headers, 'XFACTOR');
  const axisHeaders = {
    first,
    last,
    factor,
    ...(delta === undefined ? {} : { delta }),
    ...(points === undefined ? {} : { points }),
    isClosed: isFollowed,
  };
  const placed = placeOnAxis(axisHeaders, values.length, { marks, base: line });
  if (!('axis' in placed)) return placed;
  if (values.length > 1 && placed.axis.first === placed.axis.last)
    return refusal('file-abscissa-fails', { message: 'FIRSTX and LASTX are the same.', line });
  if (mayBeCut(text, series) && !endsInCheck) return cutOff(text, series);
  const n = values.length;
  const x = new Float64Array(n);
  for (let i = 0; i < n; i++) x[i] = abscissaAt(placed.axis, n, i);
  const y = values.map(scaling(factorOf(headers, 'YFACTOR')));
  const warnings = [
    ...commaNotes(decimalComma, line),
    ...placed.warnings,
    ...limitWarnings(headers, x, n > 1 ? x[1]! - x[0]! : 0, line),
    ...ordinateWarnings(headers, y, factorOf(headers, 'YFACTOR'), line),
  ];
  return { x, y, warnings };
}
