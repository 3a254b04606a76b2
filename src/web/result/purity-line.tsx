import { Link } from 'react-router';
import { useMemo } from 'react';
import { evidenceOf, evidenceReport } from '../../core/report/evidence/evidence.ts';
import { subjectsOf } from '../../core/report/evidence/subjects.ts';
import { techniqueWords } from '../../core/evidence/technique-words.ts';
import type { Figures } from './figures.ts';
import type { Result } from './result-of.ts';

/**
 * The yield of the product in what was weighed, where a typed measurement gives its mass share.
 * Files are not read here: what they say of purity stands on the page of the evidence.
 */
export function PurityLine({
  run,
  result: { planned, run: record, report },
  figures,
}: {
  readonly run: string;
  readonly result: Result;
  readonly figures: Figures;
}) {
  const corrected = useMemo(
    () =>
      evidenceReport({
        subjects: subjectsOf(planned.experiment, planned.plan, planned.table),
        evidence: evidenceOf(record),
        files: new Map(),
        structures: new Map(),
        yields: report,
      }).yield,
    [planned, record, report],
  );
  if (corrected === undefined) return null;
  const { purity, kind } = corrected;
  return (
    <p className="further">
      Corrected for purity, the yield is {kind === 'atMost' && 'at most '}
      {figures.percent(corrected.corrected)}: by the{' '}
      <Link to={`/runs/${run}/evidence`}>{techniqueWords(purity.from.statement.technique)}</Link>.
    </p>
  );
}
