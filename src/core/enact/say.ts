import type { Diagnostic, Severity } from '../diagnostic.ts';
import type { Span } from '../experiment/step.ts';
import { sentenceStart } from '../quantity/sentence.ts';

/** A figure in a message: three significant figures, no more. */
export function figure(value: number): string {
  if (!Number.isFinite(value)) return 'any amount';
  return String(Number(value.toPrecision(3)));
}

/** "a, b and c" */
export function listed(names: readonly string[]): string {
  if (names.length < 2) return names[0] ?? '';
  return `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;
}

/** A remark on a place in the text. */
export function remark(
  step: string,
  span: Span | undefined,
  code: string,
  severity: Severity,
  said: string,
  hint: string,
): Diagnostic {
  const message = sentenceStart(said);
  if (span === undefined) return { code, severity, message, hint };
  const length = Math.max(0, span.end - span.start);
  return {
    code,
    severity,
    message,
    hint,
    at: { line: span.line, column: span.column, length, step },
  };
}
