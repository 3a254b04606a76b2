import type { Diagnostic, Place } from '../../core/diagnostic.ts';

export interface Range {
  readonly from: number;
  readonly to: number;
}

/** Where each line of a text begins. */
export function lineStarts(text: string): readonly number[] {
  const starts = [0];
  for (let i = text.indexOf('\n'); i >= 0; i = text.indexOf('\n', i + 1)) starts.push(i + 1);
  return starts;
}

/** The stretch of the text that a place means; nothing where the text has no such line. */
export function rangeOf(
  place: Place | undefined,
  starts: readonly number[],
  length: number,
): Range | undefined {
  const start = place === undefined ? undefined : starts[place.line - 1];
  if (place === undefined || start === undefined) return undefined;
  const next = starts[place.line] ?? length + 1;
  const from = Math.min(start + place.column - 1, next - 1);
  return { from, to: Math.min(length, Math.max(from, from + (place.length ?? 0))) };
}

/** The findings of the line that a place stands in, those around the place itself first. */
export function findingsAt(
  findings: readonly Diagnostic[],
  starts: readonly number[],
  length: number,
  offset: number,
): Diagnostic[] {
  let line = starts.length;
  while (line > 1 && starts[line - 1]! > offset) line--;
  const there = findings.filter((finding) => finding.at?.line === line);
  const holds = (finding: Diagnostic) => {
    const range = rangeOf(finding.at, starts, length);
    return range !== undefined && range.from <= offset && offset <= range.to;
  };
  return [...there.filter(holds), ...there.filter((finding) => !holds(finding))];
}
