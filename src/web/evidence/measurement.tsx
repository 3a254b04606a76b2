import type { JudgedEvidence } from '../../core/report/evidence/report.ts';
import { Findings } from '../ui/findings.tsx';
import { evidenceFile, evidenceTitle } from '../words/evidence-words.ts';
import { Statements } from './statements.tsx';
import { dayAndHour, isDated } from '../result/clock.ts';
import type { ReactNode } from 'react';

/** One entry of evidence: what it is, what it says, what it cannot tell. */
export function Measurement({
  measured,
  said,
  picture,
  actions,
}: {
  readonly measured: JudgedEvidence;
  readonly said: (text: string) => string;
  /** The trace of a spectrum. */
  readonly picture?: ReactNode;
  readonly actions?: ReactNode;
}) {
  const { entry, evidence, statements, diagnostics, infrared } = measured;
  const origin = [evidenceFile(evidence), entry.by, dated(entry.at)].filter((word) => word !== '');
  return (
    <section
      className="evidence-measurement"
      id={`entry-${entry.id}`}
      aria-label={evidenceTitle(evidence)}
    >
      <h3 tabIndex={-1}>{evidenceTitle(evidence)}</h3>
      <p className="quiet">{origin.join(' · ')}</p>
      {diagnostics.length > 0 && (
        <Findings
          findings={diagnostics.map((one) => ({
            ...one,
            message: said(one.message),
            ...(one.hint !== undefined && { hint: said(one.hint) }),
          }))}
        />
      )}
      {picture === undefined || infrared?.judgement === undefined ? (
        <>
          <Statements statements={statements} said={said} />
          {picture}
        </>
      ) : (
        <>
          {picture}
          {statements.length > 0 && (
            <details className="evidence-all">
              <summary>Every statement of it, with what it cannot tell</summary>
              <Statements statements={statements} said={said} />
            </details>
          )}
        </>
      )}
      {actions !== undefined && <div className="row-of-buttons screen-only">{actions}</div>}
    </section>
  );
}

function dated(at: string): string {
  if (!isDated(at)) return '';
  const { day, hour } = dayAndHour(at);
  return `${day} ${hour}`.trim();
}
