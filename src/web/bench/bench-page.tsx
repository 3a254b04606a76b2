import { useEffect, useMemo, useState } from 'react';
import { Button } from '../ui/button.tsx';
import { Begin } from './begin.tsx';
import { keepPreferences, preferencesOf } from './device/preferences.ts';
import type { Preferences } from './device/preferences.ts';
import { readStored, store } from './device/stored.ts';
import { useHash, viewOf } from './device/view.ts';
import type { View } from './device/view.ts';
import { useWakeLock } from './device/wake-lock.ts';
import { Entered } from './entered.tsx';
import { InstrumentFiles } from './files/instrument-files.tsx';
import { Head } from './head.tsx';
import type { BenchState } from './outbox/bench.ts';
import type { Opened } from './outbox/database.ts';
import { asksForFile } from './record/asked-file.ts';
import { placeLines } from './record/place.ts';
import { linesOf } from './record/standing.ts';
import { RecordProvider, useRecord } from './record-context.ts';
import type { BenchRecord } from './record-context.ts';
import { RecordTable } from './record-view/record-table.tsx';
import { StepList } from './step-list.tsx';
import { StepView } from './step/step-view.tsx';
import { TimerStrip } from './timer-strip.tsx';
import { Unopened } from './unopened.tsx';
import { useBench, useBenchState } from './use-bench.ts';
import type { OpenBench } from './use-bench.ts';
import './bench.css';

/** The bench record of one run: opens it, or says why it cannot. */
export function BenchPage({ run }: { readonly run: string }) {
  const bench = useBench(run);
  if (bench === 'opening')
    return (
      <p role="status" className="bench quiet">
        Reading …
      </p>
    );
  if (bench === 'none') return <Unopened why="no-store" />;
  return <BenchOpened run={run} bench={bench} />;
}

function BenchOpened({ run, bench }: { readonly run: string; readonly bench: OpenBench }) {
  const state = useBenchState(bench);
  if (state.opened !== undefined)
    return <Working bench={bench} state={state} opened={state.opened} />;
  if (state.way === 'untried')
    return (
      <p role="status" className="bench quiet">
        Reading …
      </p>
    );
  return (
    <Unopened
      why={state.refusal?.status === 401 ? 'not-signed-in' : 'refused'}
      refusal={state.refusal}
      toSend={state.waiting.length}
      key={run}
    >
      <Button onClick={() => void bench.askAgain()}>Try again</Button>
    </Unopened>
  );
}

function useBenchRecord(
  bench: OpenBench,
  state: BenchState,
  { run, sheet, settings }: Opened,
  preferences: Preferences,
): BenchRecord {
  const { held, waiting, files } = state;
  const lines = useMemo(
    () => linesOf([...held, ...waiting.map((each) => each.entry)]),
    [held, waiting],
  );
  const placed = useMemo(() => placeLines(lines, sheet), [lines, sheet]);
  return {
    run,
    sheet,
    settings,
    lines,
    placed,
    files,
    waiting: new Map(waiting.map(({ id, refusal }) => [id, refusal])),
    writer: { run, by: preferences.by.trim(), now: () => new Date() },
    balance: preferences.balance,
    enter: bench.enter,
  };
}

function Working({
  bench,
  state,
  opened,
}: {
  readonly bench: OpenBench;
  readonly state: BenchState;
  readonly opened: Opened;
}) {
  const { run } = opened;
  const [preferences, setPreferences] = useState(() => preferencesOf(run.id));
  const record = useBenchRecord(bench, state, opened, preferences);
  const lastName = `weighboat.step ${run.id}`;
  const last = readStored<string | undefined>(lastName, undefined);
  const view = useView(preferences.by !== '', last);
  useWakeLock(preferences.awake && view.kind === 'step');
  const shown = view.kind === 'step' ? view.step : undefined;
  useEffect(() => {
    if (shown !== undefined) store(lastName, shown);
    document.title = `${shown === undefined ? '' : `Step ${shown}, `}${run.bench} · Weighboat`;
  }, [shown, lastName, run.bench]);
  const open = record.sheet.steps.find(({ id }) => id === shown) ?? false;
  const next = last ?? record.sheet.steps[0]?.id;
  return (
    <RecordProvider value={record}>
      <div className="bench" data-view={view.kind}>
        <Head state={state} bench={bench} preferences={preferences} />
        <TimerStrip current={shown} />
        <div className="bench-columns">
          <aside className="bench-side-list screen-only">
            <StepList current={shown} />
          </aside>
          <main className="bench-main">
            <InstrumentFiles button={view.kind === 'entered' || (open && asksForFile(open))} />
            <Viewed view={view} online={state.way === 'open'}>
              <Begin
                preferences={preferences}
                next={next}
                onChange={(changed) => {
                  keepPreferences(run.id, changed);
                  setPreferences(changed);
                }}
              />
            </Viewed>
          </main>
        </div>
        {view.kind !== 'entered' && (
          <div className="bench-print">
            <RecordTable />
          </div>
        )}
      </div>
    </RecordProvider>
  );
}

function Viewed({
  view,
  online,
  children,
}: {
  readonly view: View;
  readonly online: boolean;
  readonly children: React.ReactNode;
}) {
  const { sheet } = useRecord();
  if (view.kind === 'entered') return <Entered online={online} />;
  const step = view.kind === 'step' && sheet.steps.find(({ id }) => id === view.step);
  return (
    <div className="screen-only">
      {step && <StepView key={step.id} step={step} />}
      {view.kind === 'steps' && (
        <>
          <h1 className="bench-all">All steps</h1>
          <div className="bench-narrow-list">
            <StepList current={undefined} />
          </div>
        </>
      )}
      {!step && view.kind !== 'steps' && children}
    </div>
  );
}

/** Without an address of a view: where this device was last, or at the beginning. */
function useView(known: boolean, last: string | undefined): View {
  const view = viewOf(useHash());
  if (view !== undefined) return view;
  return known && last !== undefined ? { kind: 'step', step: last } : { kind: 'begin' };
}
