import type { Diagnostic, Severity } from '../../../core/diagnostic.ts';

const WORDS: readonly (readonly [Severity, string, string])[] = [
  ['error', 'to mend', 'to mend'],
  ['warning', 'to check', 'to check'],
  ['note', 'note', 'notes'],
];

function partsOf(findings: readonly Diagnostic[]): string[] {
  return WORDS.flatMap(([severity, one, several]) => {
    const count = findings.filter((finding) => finding.severity === severity).length;
    return count === 0 ? [] : [`${count} ${count === 1 ? one : several}`];
  });
}

const NOTHING = 'Nothing to mend';

/** The gravest kind alone: "2 to mend" */
export const gravestOf = (findings: readonly Diagnostic[]): string =>
  partsOf(findings)[0] ?? NOTHING;

/** "2 to mend, 1 to check and 3 notes" */
export function summaryOf(findings: readonly Diagnostic[]): string {
  const parts = partsOf(findings);
  if (parts.length === 0) return NOTHING;
  const [last] = parts.slice(-1);
  return parts.length === 1 ? last! : `${parts.slice(0, -1).join(', ')} and ${last}`;
}
