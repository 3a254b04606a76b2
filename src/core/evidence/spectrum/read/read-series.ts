import type { Diagnostic } from '../../../diagnostic.ts';
import type { MeasuredTrace, TraceTechnique } from '../trace.ts';
import type { Block } from './block.ts';
import { note, refusal, warning } from './finding.ts';
import { finishTrace } from './finish-trace.ts';
import { readEven } from './read-even.ts';
import { readPairs } from './read-pairs.ts';
import type { Series } from './series.ts';
import { percentOf, techniqueNamed, techniqueOf, xUnitOf, yUnitOf } from './units.ts';

/** A table of peaks has not so many, and not so even: common practice. */
const MANY_PEAKS = 100;

/** Points that follow each other in nearly even steps are a curve, whatever the label says. */
export function isWholeCurve(x: Float64Array, technique: TraceTechnique): boolean {
  if (x.length < MANY_PEAKS) return false;
  const gaps = Float64Array.from({ length: x.length - 1 }, (_, i) => Math.abs(x[i + 1]! - x[i]!));
  const middle = gaps.toSorted()[gaps.length >> 1]!;
  // A mass spectrum may well have a peak at every whole mass.
  if (middle === 0 || (technique === 'mass' && middle > 0.5)) return false;
  const even = gaps.filter((gap) => Math.abs(gap - middle) <= 0.25 * middle).length;
  return even >= 0.9 * gaps.length;
}

const isEven = ({ form, label }: Series): boolean =>
  form.includes('++') || (form === '' && (label === 'XYDATA' || label === 'DATATABLE'));

function endWarnings({ hasEnd }: Block, line: number): Diagnostic[] {
  if (hasEnd) return [];
  return [
    warning('file-no-end', { message: '##END= is missing. The data themselves are whole.', line }),
  ];
}

function tableWarnings(isCurveAsTable: boolean): Diagnostic[] {
  if (!isCurveAsTable) return [];
  const message = 'The file calls this a table of peaks. It is a whole curve, and was read as one.';
  return [note('peaks-are-curve', { message })];
}

/** One table of data read, checked and put in the program's units; or the reason why not. */
export function readSeries(
  text: string,
  block: Block,
  series: Series,
  room: number,
): MeasuredTrace | Diagnostic {
  const { headers, label } = series;
  const { line } = series;
  if (label === 'RADATA' || /INTERFEROGRAM/i.test(headers['DATATYPE'] ?? ''))
    return refusal('file-no-data', {
      message: 'This is an interferogram, not a spectrum.',
      hint: 'Export the spectrum after the Fourier transform.',
      line,
    });
  const read = isEven(series) ? readEven(text, series, room) : readPairs(text, series, room);
  if (!('x' in read)) return read;
  if (!read.x.every(Number.isFinite))
    return refusal('file-unreadable', {
      message: 'The axis has a number that is too large.',
      line,
    });
  const xUnit = xUnitOf(headers['XUNITS'] ?? '') ?? 'unknown';
  const yWords = `${headers['YUNITS'] ?? ''}`;
  const yUnit = yUnitOf(yWords) ?? yUnitOf(headers['YLABEL'] ?? '') ?? 'unknown';
  const named = techniqueNamed(headers['DATATYPE'] ?? '');
  const technique = named ?? techniqueOf(xUnit, yUnit);
  const isTable = label.startsWith('PEAK') || (technique === 'mass' && !isEven(series));
  const isCurve = !isTable || isWholeCurve(read.x, technique);
  const scale = headers['$ORDINATESCALE'];
  return finishTrace({
    title: series.page === '' ? block.title : `${block.title} (${series.page})`,
    technique,
    kind: isCurve ? 'curve' : 'peaks',
    x: read.x,
    y: read.y,
    xUnit,
    yUnit,
    saysPercent: percentOf(yWords),
    isDeclared: scale === 'AS WRITTEN',
    headers,
    warnings: [...endWarnings(block, line), ...read.warnings, ...tableWarnings(isTable && isCurve)],
  });
}
