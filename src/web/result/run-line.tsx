import { Link } from 'react-router';
import type { RunOpened } from '../../wire/run.ts';
import { daysOf } from './clock.ts';
import type { Result } from './result-of.ts';

/** Which bench, which experiment in which version, when, and how much was written down. */
export function RunLine({ run, result }: { readonly run: RunOpened; readonly result: Result }) {
  const days = daysOf(result.run.entries.map(({ at }) => at));
  return (
    <div className="result-run">
      <p>
        {run.bench}
        {days.length > 0 && <>, {listed(days)}</>}.{' '}
        <Link to={`/experiments/${run.experiment}`}>{run.title}</Link>,{' '}
        <Link to={`/experiments/${run.experiment}/compare?from=${run.versionNumber}`}>
          version {run.versionNumber}
        </Link>{' '}
        <span className="quiet">({run.document.slice(0, 8)})</span>
      </p>
      <p>
        <span role="status">{countText(result)}</span>
        <a className="screen-only" href={`/bench/${run.id}`}>
          Open the bench record
        </a>
        <Link className="screen-only" to={`/runs/${run.id}/evidence`}>
          To the evidence
        </Link>
      </p>
    </div>
  );
}

function countText({ run: { entries, struck } }: Result): string {
  const count = entries.length;
  const said = count === 1 ? '1 entry' : `${count === 0 ? 'No' : count} entries`;
  return struck.length === 0 ? said : `${said}, ${struck.length} struck`;
}

function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
