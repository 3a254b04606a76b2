import type { ClaimReport } from '../../evidence/spectrum/claims/check-claims.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import type { InfraredJudgement } from '../../evidence/spectrum/judge/judge.ts';
import type { InfraredSpectrum } from '../../evidence/spectrum/infrared.ts';
import type { Judged } from '../../evidence/statement.ts';
import type { Subjects } from '../../evidence/subject.ts';
import type { RunEvidence } from '../../record/run.ts';
import type { CorrectedYield } from './corrected-yield.ts';
import type { VerdictRow } from './verdict.ts';

/** One entry of evidence, judged. */
export interface JudgedEvidence extends RunEvidence, Judged {
  /** Of an infrared spectrum that could be read. */
  readonly infrared?: {
    readonly spectrum: InfraredSpectrum;
    readonly judgement?: InfraredJudgement;
    /** Of the person's own table of assignments. */
    readonly claims?: ClaimReport;
  };
}

export interface EvidenceReport {
  readonly subjects: Subjects;
  readonly sentence: string;
  readonly verdict: readonly VerdictRow[];
  readonly measurements: readonly JudgedEvidence[];
  /** Where a mass share of the product is known and the product was weighed. */
  readonly yield?: CorrectedYield;
  /** What goes for the whole: no product is named, its structure is not known. */
  readonly diagnostics: readonly Diagnostic[];
}
