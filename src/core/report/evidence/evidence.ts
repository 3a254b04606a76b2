import type { Diagnostic } from '../../diagnostic.ts';
import type { EvidenceEntered } from '../../evidence/schema.ts';
import type { FileReading } from '../../evidence/spectrum/trace.ts';
import type { StructureFacts } from '../../evidence/structure.ts';
import type { Judged } from '../../evidence/statement.ts';
import type { Subjects } from '../../evidence/subject.ts';
import type { BenchRun, RunEvidence } from '../../record/run.ts';
import type { YieldReport } from '../yield/result.ts';
import { choosePurity, correctedYield } from './corrected-yield.ts';
import { judgeInfraredFiles } from './infrared.ts';
import { judgeEntered } from './judges.ts';
import type { EvidenceReport, JudgedEvidence } from './report.ts';
import { verdictOf, verdictSentence } from './verdict.ts';
import type { SourcedStatement } from './verdict.ts';

export interface EvidenceQuestion {
  readonly subjects: Subjects;
  readonly evidence: readonly RunEvidence[];
  /** The files that the evidence names, by hash; one that is missing is under way. */
  readonly files: ReadonlyMap<string, FileReading>;
  /** By SMILES. */
  readonly structures: ReadonlyMap<string, StructureFacts>;
  /** Of the same bench: what a purity corrects. */
  readonly yields?: YieldReport;
}

/**
 * All evidence of a record, melting ranges that were entered at a step among it. A file that was
 * only kept is settled by the entry that was worked up from it; of several entries about one
 * spectrum, as when a table of assignments is added, the last counts.
 */
export function evidenceOf(run: BenchRun): readonly RunEvidence[] {
  const melted = run.meltingRanges.map(({ entry, value, high }): RunEvidence => {
    const evidence: EvidenceEntered = {
      technique: 'meltingRange',
      sample: 'product',
      low_C: value,
      high_C: high ?? value,
    };
    return { entry, evidence };
  });
  const worked = new Set(
    run.evidence.flatMap(({ entry, evidence }) =>
      (entry.attachments ?? []).map((hash) => `${hash} ${evidence.technique}`),
    ),
  );
  const last = new Map(run.evidence.flatMap((one) => spectrumKey(one).map((key) => [key, one])));
  const open = run.evidence.filter((one) => {
    const { entry, evidence } = one;
    if (evidence.technique === 'file')
      return !(entry.attachments ?? []).some((hash) => worked.has(`${hash} ${evidence.kind}`));
    return spectrumKey(one).every((key) => last.get(key) === one);
  });
  return [...open, ...melted].sort((a, b) => (a.entry.at < b.entry.at ? -1 : 1));
}

/** One infrared file of one sample; a file may serve two samples. */
function spectrumKey({ entry, evidence }: RunEvidence): string[] {
  const hash = entry.attachments?.[0];
  return evidence.technique !== 'infrared' || hash === undefined ? [] : [`${hash} ${evidence.of}`];
}

/** What every measurement says, what they say together, and what that makes of the yield. */
export function evidenceReport(question: EvidenceQuestion): EvidenceReport {
  const { subjects, evidence, yields } = question;
  const spectra = judgeInfraredFiles(question);
  const measurements = evidence.map(
    (one): JudgedEvidence => spectra.get(one.entry.id) ?? { ...one, ...judgedBy(one, question) },
  );
  const statements = measurements.flatMap(({ entry, statements: said }): SourcedStatement[] =>
    said.map((statement) => ({ entry: entry.id, statement })),
  );
  const name = subjects.product?.substance.name;
  const verdict = verdictOf(statements, name);
  const corrected = correctedIn(statements, question);
  return {
    subjects,
    sentence: verdictSentence(verdict, name),
    verdict,
    measurements,
    ...(corrected !== undefined && yields !== undefined && { yield: corrected }),
    diagnostics: lacking(subjects),
  };
}

function judgedBy({ evidence }: RunEvidence, question: EvidenceQuestion): Judged {
  return judgeEntered(evidence, question.subjects, question.structures);
}

function correctedIn(
  statements: readonly SourcedStatement[],
  { subjects, yields }: EvidenceQuestion,
) {
  const product = subjects.product?.substance;
  if (product === undefined || yields === undefined) return undefined;
  const isolated = yields.products.find(({ substance }) => substance === product.id)?.yield ?? null;
  const purity = choosePurity(statements, product.name);
  if (isolated === null || purity === undefined) return undefined;
  return correctedYield(isolated, purity, yields.policy);
}

function lacking({ product }: Subjects): Diagnostic[] {
  if (product === undefined)
    return [
      {
        code: 'evidence-no-product',
        severity: 'warning',
        message: 'The experiment names no product, so nothing can be compared with it.',
        hint: 'Name it under "Product" in the experiment.',
      },
    ];
  if (product.substance.smiles !== undefined) return [];
  return [
    {
      code: 'evidence-no-structure',
      severity: 'note',
      message: `The structure of ${product.substance.name} is not known, so spectra are read without it.`,
      hint: `Add it under "Substances": - ${product.substance.name}: SMILES ...`,
    },
  ];
}
