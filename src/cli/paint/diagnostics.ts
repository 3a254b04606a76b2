import { byImportance } from '../../core/diagnostic.ts';
import type { Diagnostic, Severity } from '../../core/diagnostic.ts';
import { sentenceStart } from '../../core/quantity/sentence.ts';
import type { Paper } from './ink.ts';
import { count, paragraph, widthOf } from './text.ts';

/** "No errors. 2 remarks." */
export function summaryOf(diagnostics: readonly Diagnostic[]): string {
  const errors = diagnostics.filter((one) => one.severity === 'error').length;
  const remarks = diagnostics.length - errors;
  const first = errors === 0 ? 'No errors.' : `${count(errors, 'error')}.`;
  return remarks === 0 ? first : `${first} ${count(remarks, 'remark')}.`;
}

/** Each mistake or remark: where, what, the line of the document with a caret, what to do. */
export function paintDiagnostics(
  diagnostics: readonly Diagnostic[],
  source: string,
  paper: Paper,
): string {
  const lines = source.split(/\r\n|\n|\r/);
  return diagnostics
    .toSorted(byImportance)
    .map((one) => paintDiagnostic(one, lines, paper))
    .join('\n\n');
}

const HEADS: Record<Severity, (paper: Paper) => (text: string) => string> = {
  error:
    ({ ink }) =>
    (text) =>
      ink.bold(ink.accent(text)),
  warning: ({ ink }) => ink.bold,
  note: ({ ink }) => ink.faint,
};

function paintDiagnostic(one: Diagnostic, lines: readonly string[], paper: Paper): string {
  const where = one.at === undefined ? '' : `  line ${one.at.line}:${one.at.column}`;
  const step = one.at?.step === undefined ? '' : `, step ${one.at.step}`;
  const head = HEADS[one.severity](paper)(one.severity);
  const parts = [
    `${head}${where}${step}  ${paper.ink.faint(one.code)}`,
    paragraph(sentenceStart(one.message), paper.width, '  '),
    ...sourceLines(one, lines, paper),
  ];
  if (one.hint !== undefined)
    parts.push(paragraph(sentenceStart(one.hint), paper.width, '  → ', '    '));
  if (one.fix !== undefined)
    parts.push(paragraph(`Write: ${one.fix}`, paper.width, '  → ', '    '));
  return parts.join('\n');
}

/** The line meant, moved sideways so that the marked words are in sight, and carets under them. */
function sourceLines(one: Diagnostic, lines: readonly string[], paper: Paper): string[] {
  const source = one.at === undefined ? undefined : lines[one.at.line - 1];
  if (one.at === undefined || source === undefined || source.trim() === '') return [];
  const text = source.replace(/\t/g, ' ');
  const gutter = `  ${String(one.at.line).padStart(4)} │ `;
  const room = Math.max(20, paper.width - gutter.length);
  const from = Math.min(Math.max(0, one.at.column - 1), text.length);
  const shift =
    text.length <= room ? 0 : Math.max(0, Math.min(from - (room >> 2), text.length - room));
  const seen = text.slice(shift, shift + room);
  const length = Math.max(1, Math.min(one.at.length ?? 1, seen.length - (from - shift)));
  const before = widthOf(seen.slice(0, from - shift));
  return [
    `${paper.ink.faint(gutter)}${seen}`,
    `${paper.ink.faint(`${' '.repeat(gutter.length - 2)}│ `)}${' '.repeat(before)}${paper.ink.accent('^'.repeat(length))}`,
  ];
}
