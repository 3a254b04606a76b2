import { useMemo } from 'react';
import { useParams } from 'react-router';
import { DEFAULT_SETTINGS_SHOWN } from './settings-shown.ts';
import { laboratoryInstruments } from '../../core/quantity/laboratory.ts';
import { useSettings } from '../api/queries.ts';
import type { RunOpened } from '../../wire/run.ts';
import { footOf } from '../print/page-rules.ts';
import { usePrinting } from '../print/use-printing.ts';
import { Page } from '../ui/page.tsx';
import { Waiting } from '../ui/waiting.tsx';
import { Answer } from './answer-section.tsx';
import { BalancesSection } from './balances-section.tsx';
import { BudgetSection } from './budget-section.tsx';
import { EnteredSection } from './entered-section.tsx';
import { enteredRows } from './entered.ts';
import { figuresIn } from './figures.ts';
import { FindingsSection } from './findings-section.tsx';
import { FlowSection } from './flow-section.tsx';
import { RecordSection } from './record-section.tsx';
import { plannedOf, resultOf } from './result-of.ts';
import { SeenSection } from './seen-section.tsx';
import { seenIn } from './seen.ts';
import { useLiveRun } from './use-live-run.ts';
import './result-page.css';

/** What one bench got, worked out in the browser from its record, while the bench still writes. */
export function ResultPage() {
  const { id = '' } = useParams();
  const run = useLiveRun(id);
  return (
    <Page title={run.data === undefined ? 'Result' : `${run.data.bench}: ${run.data.title}`}>
      <Waiting of={run}>{(opened) => <Shown run={opened} />}</Waiting>
    </Page>
  );
}

function Shown({ run }: { readonly run: RunOpened }) {
  const settings = useSettings().data ?? DEFAULT_SETTINGS_SHOWN;
  const { decimalSign } = settings;
  usePrinting({ size: settings.paper, foot: footFor(run) });
  const instruments = useMemo(() => laboratoryInstruments(settings), [settings]);
  const figures = useMemo(() => figuresIn(decimalSign), [decimalSign]);
  const planned = useMemo(() => plannedOf(run.text), [run.text]);
  const result = useMemo(
    () =>
      resultOf(
        planned,
        run.kept.map(({ entry }) => entry),
        run.document,
        instruments,
      ),
    [planned, run.kept, run.document, instruments],
  );
  const rows = useMemo(
    () => enteredRows(planned.experiment, planned.plan, result.run, decimalSign),
    [planned, result, decimalSign],
  );
  const seen = useMemo(() => seenIn(result.run, decimalSign), [result, decimalSign]);
  const shown = new Set([...rows, ...seen].flatMap(({ entry }) => (entry ? [entry.id] : [])));
  const [first] = result.report.products;
  return (
    <div className="result">
      <Answer run={run} result={result} figures={figures} />
      {run.kept.length > 0 && <BalancesSection balances={result.balances} figures={figures} />}
      <div className="result-pair">
        <FindingsSection {...{ result, shown, figures }} experiment={run.experiment} />
        {first !== undefined && <BudgetSection product={first} {...{ result, figures }} />}
      </div>
      <EnteredSection {...{ rows, result, figures }} />
      <SeenSection seen={seen} />
      <FlowSection
        result={result}
        sentence={figures.said(result.report.sentence)}
        version={run.document.slice(0, 8)}
        decimal={decimalSign}
      />
      <RecordSection run={run} />
      <footer className="result-foot">
        {run.title}, version {run.versionNumber}: {run.document}
      </footer>
    </div>
  );
}

/** At the foot of every printed page: whose result, and of which version of the experiment. */
function footFor({ bench, title, versionNumber, document }: RunOpened): string {
  const version = { title, number: versionNumber, name: null, document, kept: true };
  return `${bench} · ${footOf(version)}`;
}
