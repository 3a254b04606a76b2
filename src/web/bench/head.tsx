import { Button } from '../ui/button.tsx';
import { balanceLabel } from './device/preferences.ts';
import type { Preferences } from './device/preferences.ts';
import { addressOf } from './device/view.ts';
import type { BenchState } from './outbox/bench.ts';
import { useRecord } from './record-context.ts';
import { statusText } from './status.ts';
import type { OpenBench } from './use-bench.ts';

/** Which bench, who writes on which balance, and how the record stands with the server. */
export function Head({
  state,
  bench,
  preferences,
}: {
  readonly state: BenchState;
  readonly bench: OpenBench;
  readonly preferences: Preferences;
}) {
  const { run, settings } = useRecord();
  const { by, balance } = preferences;
  const who = [by.trim(), balance === null ? '' : balanceLabel(balance, settings)].filter(
    (word) => word !== '',
  );
  return (
    <header className="bench-head screen-only">
      <p className="bench-head-line">
        <a className="bench-head-who" href={addressOf({ kind: 'begin' })}>
          <strong>{run.bench}</strong>
          <span>{who.length === 0 ? 'Who writes?' : who.join(' · ')}</span>
        </a>
        <span className="bench-status" role="status">
          {statusText(state)}
        </span>
      </p>
      <Refusals state={state} bench={bench} />
    </header>
  );
}

/** What the server would not take, and what to do about it. Nothing of it is lost meanwhile. */
function Refusals({ state, bench }: { readonly state: BenchState; readonly bench: OpenBench }) {
  const { refusal, way, waiting, files, elsewhere } = state;
  const refused = [...waiting, ...files].filter((each) => each.refusal !== undefined);
  return (
    <>
      {way !== 'open' && refusal !== undefined && refusal.status !== 0 && (
        <p className="bench-notice">
          {refusal.status === 401
            ? 'This device is no longer signed in. Ask for a new link to this bench record. Until then everything you enter is kept here.'
            : `${refusal.message} What you enter is kept on this device.`}
        </p>
      )}
      {refused.length > 0 && (
        <p className="bench-notice">
          {refused.length === 1
            ? 'One line was not taken by the server: '
            : `${refused.length} lines were not taken by the server: `}
          {[...new Set(refused.map((each) => each.refusal!.message))].join(' ')} Kept on this
          device.{' '}
          <Button rank="plain" onClick={() => void bench.tryAgain()}>
            Send again
          </Button>
        </p>
      )}
      {elsewhere.map((run) => (
        <p key={run} className="bench-notice">
          Another bench record has lines on this device that were not sent.{' '}
          <a href={`/bench/${run}`}>Open it to send them</a>
        </p>
      ))}
    </>
  );
}
