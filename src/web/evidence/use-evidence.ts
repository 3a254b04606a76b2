import { useMemo } from 'react';
import type { FileReading } from '../../core/evidence/spectrum/trace.ts';
import type { Instrument } from '../../core/quantity/instrument.ts';
import type { EvidenceReport } from '../../core/report/evidence/report.ts';
import { evidenceReport, evidenceOf } from '../../core/report/evidence/evidence.ts';
import { subjectsOf } from '../../core/report/evidence/subjects.ts';
import type { StructureDrawn } from '../../wire/structure.ts';
import type { RunOpened } from '../../wire/run.ts';
import { plannedOf, resultOf } from '../result/result-of.ts';
import type { Result } from '../result/result-of.ts';
import { useRunFiles } from './use-run-files.ts';
import { useStructures } from './use-structures.ts';

export interface RunEvidenceShown {
  readonly result: Result;
  readonly report: EvidenceReport;
  readonly structures: ReadonlyMap<string, StructureDrawn>;
  /** The files that the record names, by hash. */
  readonly files: ReadonlyMap<string, FileReading>;
  /** Structures are not known yet, so that nothing can be said from them. */
  readonly waiting: boolean;
}

/** All evidence of a bench, judged in the browser from its record and its files. */
export function useEvidence(run: RunOpened, instruments: readonly Instrument[]): RunEvidenceShown {
  const planned = useMemo(() => plannedOf(run.text), [run.text]);
  const result = useMemo(() => {
    const entries = run.kept.map(({ entry }) => entry);
    return resultOf(planned, entries, run.document, instruments);
  }, [planned, run.kept, run.document, instruments]);
  const subjects = useMemo(
    () => subjectsOf(planned.experiment, planned.plan, planned.table),
    [planned],
  );
  const { structures, waiting } = useStructures(subjects);
  const evidence = useMemo(() => evidenceOf(result.run), [result.run]);
  const files = useRunFiles(evidence);
  const report = useMemo(
    () => evidenceReport({ subjects, evidence, files, structures, yields: result.report }),
    [subjects, evidence, files, structures, result.report],
  );
  return { result, report, structures, files, waiting };
}
