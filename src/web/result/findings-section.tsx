import { Link } from 'react-router';
import type { RecordDiagnostic } from '../../core/record/run.ts';
import { Findings } from '../ui/findings.tsx';
import { netKey, rowAddress } from './entered.ts';
import type { Figures } from './figures.ts';
import type { Result } from './result-of.ts';

/** What is worth a second look, each with a way to the line or the step that it is about. */
export function FindingsSection({
  result,
  experiment,
  shown,
  figures,
}: {
  readonly result: Result;
  /** Id of the experiment that the bench worked from. */
  readonly experiment: string;
  /** Entries that have a line on this page. */
  readonly shown: ReadonlySet<string>;
  readonly figures: Figures;
}) {
  const findings = result.findings.map((finding) => ({
    ...finding,
    message: figures.said(finding.message),
    ...(finding.hint === undefined ? {} : { hint: figures.said(finding.hint) }),
  }));
  if (findings.length === 0 && result.unread === 0) return null;
  return (
    <section aria-labelledby="result-findings">
      <h2 id="result-findings">To look at</h2>
      {result.unread > 0 && (
        <p>
          {result.unread === 1 ? 'One sentence' : `${result.unread} sentences`} of the procedure{' '}
          {result.unread === 1 ? 'is' : 'are'} not understood, so that the ledger knows nothing of
          what was done there. <Link to={`/experiments/${experiment}`}>To the experiment</Link>
        </p>
      )}
      <Findings
        findings={findings}
        actions={(finding: RecordDiagnostic) => (
          <Goal
            finding={finding}
            experiment={experiment}
            shown={shown}
            weighing={weighingOf(finding, result)}
          />
        )}
      />
    </section>
  );
}

/** A finding about a yield has no entry of its own: it is about the last weighing of its product. */
function weighingOf({ code, message }: RecordDiagnostic, { report }: Result): string | undefined {
  if (code !== 'yield-over-100') return undefined;
  const last = report.products.find(({ name }) => message.includes(name))?.entries.at(-1);
  return last && rowAddress(netKey(last.step, last.vessel));
}

function Goal({
  finding: { entry, at },
  experiment,
  shown,
  weighing,
}: {
  readonly weighing: string | undefined;
  readonly finding: RecordDiagnostic;
  readonly experiment: string;
  readonly shown: ReadonlySet<string>;
}) {
  if (entry !== undefined && shown.has(entry)) return <a href={`#entry-${entry}`}>See the entry</a>;
  if (weighing !== undefined) return <a href={`#${weighing}`}>See the weighing</a>;
  if (at?.step !== undefined)
    return <Link to={`/experiments/${experiment}#step-${at.step}`}>See step {at.step}</Link>;
  if (at !== undefined)
    return <Link to={`/experiments/${experiment}#line-${at.line}`}>See line {at.line}</Link>;
  return null;
}
