import type { Diagnostic, Severity } from '../../../core/diagnostic.ts';

const WORDS: readonly (readonly [Severity, string, string])[] = [
  ['error', 'to mend', 'to mend'],
  ['warning', 'to check', 'to check'],
  ['note', 'note', 'notes'],
];

/** "2 to mend, 1 to check and 3 notes" */
export function summaryOf(findings: readonly Diagnostic[]): string {
  const parts = WORDS.flatMap(([severity, one, several]) => {
    const count = findings.filter((finding) => finding.severity === severity).length;
    return count === 0 ? [] : [`${count} ${count === 1 ? one : several}`];
  });
  if (parts.length === 0) return 'Nothing to mend';
  const [last] = parts.slice(-1);
  return parts.length === 1 ? last! : `${parts.slice(0, -1).join(', ')} and ${last}`;
}
