import type { Diagnostic } from '../../../diagnostic.ts';
import { refusal, shown, warning } from './finding.ts';
import type { Written } from './number-scan.ts';
import type { AbscissaMark } from './ordinates.ts';

/** What the headers of an evenly spaced record say of its axis. */
export interface AxisHeaders {
  readonly first: Written;
  readonly last: Written;
  readonly factor: number;
  readonly delta?: Written;
  readonly points?: number;
  /** The record has an end: ##END=, or the next record. */
  readonly isClosed: boolean;
}

export interface Axis {
  readonly first: number;
  readonly last: number;
}

export interface Placed {
  readonly axis: Axis;
  readonly warnings: readonly Diagnostic[];
}

/** The place of one of n evenly spaced points; the ends are exactly `first` and `last`. */
export function abscissaAt({ first, last }: Axis, n: number, index: number): number {
  if (index === n - 1) return last;
  return first + (index * (last - first)) / (n - 1);
}

interface Deviation {
  readonly mark: AbscissaMark;
  readonly says: number;
  readonly expected: number;
}

interface Checked {
  /** The first line that cannot stand on this axis. */
  readonly failed?: Deviation;
  /** Some line is further off than its rounding and a tenth of the spacing explain. */
  readonly isRough: boolean;
}

/**
 * A quarter of a spacing and the rounding of the written figures: a point that is lost, and not
 * missed by NPOINTS, shows as half a spacing in the middle.
 */
function checkLines(
  axis: Axis,
  n: number,
  marks: readonly AbscissaMark[],
  factor: number,
): Checked {
  const spacing = n > 1 ? Math.abs(axis.last - axis.first) / (n - 1) : 0;
  let isRough = false;
  for (const mark of marks) {
    const says = mark.x * factor;
    const expected = abscissaAt(axis, n, mark.index);
    const off = Math.abs(says - expected);
    const figures = mark.unit * Math.abs(factor) + 1e-9 * Math.abs(expected);
    if (off > 0.25 * spacing + 0.5 * figures) {
      // Integers on a fine grid may be cut off rather than rounded: one whole unit, said.
      if (off > figures || mark.unit * Math.abs(factor) < 0.5 * spacing)
        return { failed: { mark, says, expected }, isRough };
      isRough = true;
    } else if (off > 0.1 * spacing + figures) isRough = true;
  }
  return { isRough };
}

const spacingOf = ({ first, last }: Axis, n: number): number =>
  n > 1 ? (last - first) / (n - 1) : 0;

/** DELTAX and the spacing agree as far as its decimals go, or to a tenth of a point over the whole axis. */
function deltaAgrees(delta: Written, axis: Axis, n: number): boolean {
  const spacing = Math.abs(spacingOf(axis, n));
  const drift = Math.abs(Math.abs(delta.value) - spacing) * (n - 1);
  return drift <= 0.1 * spacing + (delta.unit < 1 ? delta.unit : 0) * (n - 1);
}

const at = (base: number, { line }: AbscissaMark): number => base + line;

function linesFail(failed: Deviation, base: number): Diagnostic {
  return refusal('file-abscissa-fails', {
    message:
      `The line begins at ${shown(failed.says)}. By FIRSTX, LASTX and the number of points it should ` +
      `be ${shown(failed.expected)}, so that points are missing or the axis is wrong.`,
    hint: 'Export the spectrum again; a wrong axis would move every band.',
    line: at(base, failed.mark),
  });
}

function countFails(n: number, headers: AxisHeaders, line: number): Diagnostic {
  const said = headers.points ?? 0;
  const isCut = n < said && !headers.isClosed;
  return isCut
    ? refusal('file-cut-off', {
        message: `The file stops after ${n} of ${said} points. The rest is missing.`,
        hint: 'Copy or export the file again.',
        line,
      })
    : refusal('file-points-differ', {
        message: `NPOINTS says ${said}, the data hold ${n}. Which points are meant is not certain.`,
        hint: 'Export the spectrum again.',
        line,
      });
}

function deltaWarning(delta: Written, spacing: number, line: number): Diagnostic {
  return warning('file-deltax', {
    message:
      `DELTAX says ${shown(delta.value)}. FIRSTX, LASTX and the lines themselves give ` +
      `${shown(spacing)}, which was taken.`,
    line,
  });
}

/** One more or one less than the lines and DELTAX prove: the last point was counted wrongly. */
function repairedEnd(
  headers: AxisHeaders,
  n: number,
  marks: readonly AbscissaMark[],
): Axis | undefined {
  const { first, last, delta, factor } = headers;
  if (delta === undefined || delta.value === 0 || n < 3 || marks.length < 3) return undefined;
  const step = Math.abs(delta.value) * Math.sign(last.value - first.value);
  const axis = { first: first.value, last: first.value + (n - 1) * step };
  if (Math.abs(axis.last - last.value) > 1.5 * Math.abs(step)) return undefined;
  return checkLines(axis, n, marks, factor).failed === undefined ? axis : undefined;
}

interface Lines {
  readonly marks: readonly AbscissaMark[];
  /** Line of the file that the label of the data stands on. */
  readonly base: number;
}

/** The count is right, or not said: do the lines stand where the headers put them? */
function placeCounted(
  headers: AxisHeaders,
  n: number,
  { marks, base }: Lines,
): Placed | Diagnostic {
  const axis = { first: headers.first.value, last: headers.last.value };
  const warnings: Diagnostic[] = [];
  const { failed, isRough } = checkLines(axis, n, marks, headers.factor);
  if (failed !== undefined) {
    const unscaled = headers.factor !== 1 && checkLines(axis, n, marks, 1).failed === undefined;
    const repaired = unscaled ? undefined : repairedEnd(headers, n, marks);
    if (!unscaled && repaired === undefined) return linesFail(failed, base);
    const message = unscaled
      ? 'The lines begin with abscissae that XFACTOR was already put on.'
      : `LASTX says ${shown(axis.last)}. The lines and DELTAX give ${shown(repaired!.last)}, which was taken.`;
    warnings.push(
      warning(unscaled ? 'file-abscissa-factor' : 'file-lastx', { message, line: base }),
    );
    return { axis: repaired ?? axis, warnings };
  }
  if (isRough)
    warnings.push(
      warning('file-abscissa-rough', {
        message:
          'Lines begin a little beside the place that FIRSTX and LASTX give them, by less than one point.',
        line: base,
      }),
    );
  const { delta } = headers;
  if (delta === undefined || n < 2 || deltaAgrees(delta, axis, n)) return { axis, warnings };
  if (marks.length < 3 || spacingOf(axis, n) === 0)
    return refusal('file-abscissa-fails', {
      message:
        `DELTAX says ${shown(delta.value)}, FIRSTX, LASTX and ${n} points give ` +
        `${shown(spacingOf(axis, n))}, and there are too few lines to tell which is right.`,
      hint: 'Export the spectrum again.',
      line: base,
    });
  return { axis, warnings: [...warnings, deltaWarning(delta, spacingOf(axis, n), base)] };
}

/**
 * Puts n evenly spaced values on their axis, first + i·(last − first)/(n − 1), or says why that
 * cannot be trusted. Five facts must agree: FIRSTX, LASTX, NPOINTS, DELTAX, and the abscissa of each
 * line. One of NPOINTS and DELTAX may be wrong where all the others prove it; an axis that a line
 * contradicts is refused, since it would be stretched.
 */
export function placeOnAxis(headers: AxisHeaders, n: number, lines: Lines): Placed | Diagnostic {
  const lastLine = lines.base + (lines.marks.at(-1)?.line ?? 0);
  if (headers.points === undefined || headers.points === n) {
    const placed = placeCounted(headers, n, lines);
    if (!('axis' in placed) || headers.points === n) return placed;
    const message = `NPOINTS is missing. ${n} points were counted.`;
    const missing = warning('file-points-header', { message, line: lines.base });
    return { ...placed, warnings: [missing, ...placed.warnings] };
  }
  const { delta } = headers;
  const axis = { first: headers.first.value, last: headers.last.value };
  const isProven =
    headers.isClosed &&
    n >= 3 &&
    lines.marks.length >= 3 &&
    delta !== undefined &&
    deltaAgrees(delta, axis, n) &&
    checkLines(axis, n, lines.marks, headers.factor).failed === undefined;
  if (!isProven) return countFails(n, headers, lastLine);
  const message =
    `NPOINTS says ${headers.points}, the data hold ${n}. FIRSTX, LASTX, DELTAX and every line agree ` +
    `with ${n}, which was taken.`;
  return { axis, warnings: [warning('file-points-header', { message, line: lines.base })] };
}
