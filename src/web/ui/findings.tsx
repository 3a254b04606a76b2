import type { ReactNode } from 'react';
import type { Diagnostic, Severity } from '../../core/diagnostic.ts';
import './findings.css';

/** Severity in the words of someone at the next bench. */
const WORD: Readonly<Record<Severity, string>> = {
  error: 'Mend',
  warning: 'Check',
  note: 'Note',
};

/** What is worth a second look, the most important first, each with what to do about it. */
export function Findings<D extends Diagnostic>({
  findings,
  actions,
}: {
  readonly findings: readonly D[];
  /** Buttons under a finding: go there, apply the fix. */
  readonly actions?: (finding: D) => ReactNode;
}) {
  return (
    <ul className="findings">
      {findings.map((finding, i) => (
        <li key={`${finding.code}-${i}`} data-severity={finding.severity}>
          <span className="severity">{WORD[finding.severity]}</span>
          <div>
            <div>{finding.message}</div>
            {finding.hint !== undefined && <p className="hint">{finding.hint}</p>}
            {actions && <div className="row-of-buttons screen-only">{actions(finding)}</div>}
          </div>
        </li>
      ))}
    </ul>
  );
}
