import { useMemo, useState } from 'react';
import { Link, useParams } from 'react-router';
import { laboratoryInstruments } from '../../core/quantity/laboratory.ts';
import type { EvidenceReport } from '../../core/report/evidence/report.ts';
import { techniqueWords } from '../../core/evidence/technique-words.ts';
import type { RunOpened } from '../../wire/run.ts';
import { useSession, useSettings } from '../api/queries.ts';
import { footOf } from '../print/page-rules.ts';
import { usePrinting } from '../print/use-printing.ts';
import { figuresIn } from '../result/figures.ts';
import type { Figures } from '../result/figures.ts';
import { DEFAULT_SETTINGS_SHOWN } from '../result/settings-shown.ts';
import { useLiveRun } from '../result/use-live-run.ts';
import { Findings } from '../ui/findings.tsx';
import { Page } from '../ui/page.tsx';
import { unbroken } from '../words/decimal.ts';
import { Waiting } from '../ui/waiting.tsx';
import { AddMeasurement } from './add-measurement.tsx';
import type { OpenForm } from './add-measurement.tsx';
import { Measurements } from './measurements.tsx';
import { useEvidence } from './use-evidence.ts';
import { isAnswered, VerdictTable } from './verdict-table.tsx';
import './evidence.css';

/** Is it the product, and how pure: what every measurement of a bench says, and all together. */
export function EvidencePage() {
  const { id = '' } = useParams();
  const run = useLiveRun(id);
  const title =
    run.data === undefined ? 'Evidence' : `Evidence: ${run.data.bench}, ${run.data.title}`;
  return (
    <Page title={title}>
      <Waiting of={run}>{(opened) => <Shown run={opened} />}</Waiting>
    </Page>
  );
}

function Shown({ run }: { readonly run: RunOpened }) {
  const settings = useSettings().data ?? DEFAULT_SETTINGS_SHOWN;
  usePrinting({ size: settings.paper, foot: footFor(run) });
  const instruments = useMemo(() => laboratoryInstruments(settings), [settings]);
  const figures = useMemo(() => figuresIn(settings.decimalSign), [settings.decimalSign]);
  const shown = useEvidence(run, instruments);
  const { report } = shown;
  const by = useSession().data?.person.name.slice(0, 200) ?? '';
  const [open, setOpen] = useState<OpenForm>();
  return (
    <div className="evidence">
      <header className="evidence-answer">
        <h1>{unbroken(figures.said(report.sentence))}</h1>
        <Yield report={report} figures={figures} />
        <p>
          {run.bench}. <Link to={`/experiments/${run.experiment}`}>{run.title}</Link>, version{' '}
          {run.versionNumber}.
        </p>
        <p className="screen-only evidence-ways">
          <Link to={`/runs/${run.id}`}>To the yield</Link>
          <a href={`/bench/${run.id}`}>Open the bench record</a>
        </p>
      </header>
      {report.diagnostics.length > 0 && <Findings findings={report.diagnostics} />}
      {report.verdict.some(isAnswered) && (
        <VerdictTable rows={report.verdict} said={figures.said} />
      )}
      <AddMeasurement {...{ run, by, report, open, setOpen }} decimalSign={settings.decimalSign} />
      <Measurements {...{ run, by, shown, figures, settings }} onWorkUp={setOpen} />
      <footer className="evidence-foot">
        {run.title}, version {run.versionNumber}: {run.document}
      </footer>
    </div>
  );
}

/** The yield as weighed, and of what is the product in it. */
function Yield({
  report: { yield: corrected },
  figures,
}: {
  readonly report: EvidenceReport;
  readonly figures: Figures;
}) {
  if (corrected === undefined) return null;
  const { isolated, purity, kind } = corrected;
  const { of } = purity.figure;
  const by = techniqueWords(purity.from.statement.technique);
  return (
    <p className="further">
      Yield: {figures.percent(isolated)} as weighed; corrected for the share of {of} in it (by the{' '}
      {by}), {kind === 'atMost' && 'at most '}
      {figures.percent(corrected.corrected)}.
    </p>
  );
}

function footFor({ bench, title, versionNumber, document }: RunOpened): string {
  const version = { title, number: versionNumber, name: null, document, kept: true };
  return `Evidence · ${bench} · ${footOf(version)}`;
}
