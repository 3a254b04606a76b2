import { Link } from 'react-router';
import type { Run } from '../../../wire/run.ts';
import { useRuns } from '../../api/queries.ts';
import { whenText } from '../../ui/when.ts';
import { PhoneLink } from './phone-link.tsx';
import './bench-records.css';

const counted = (entries: number) =>
  entries === 0 ? 'nothing entered yet' : `${entries} ${entries === 1 ? 'entry' : 'entries'}`;

/** The bench records of this experiment, the newest first. */
export function BenchList({ experiment }: { readonly experiment: string }) {
  const { data = [] } = useRuns(experiment);
  if (data.length === 0) return null;
  const runs = [...data].sort((a, b) => b.startedAt.localeCompare(a.startedAt));
  return (
    <section className="experiment-benches screen-only" aria-labelledby="benches">
      <h2 id="benches">Bench records</h2>
      <ul>
        {runs.map((run) => (
          <BenchRow key={run.id} run={run} />
        ))}
      </ul>
    </section>
  );
}

function BenchRow({ run }: { readonly run: Run }) {
  return (
    <li>
      <span className="experiment-bench-name">{run.bench}</span>
      <span className="quiet">
        version {run.versionNumber}, begun {whenText(run.startedAt)}, {counted(run.entries)}
      </span>
      <span className="row-of-buttons">
        {/* Another program: the page is loaded anew. */}
        <a href={`/bench/${run.id}`}>
          Go to the bench<span className="spoken">: {run.bench}</span>
        </a>
        <Link to={`/runs/${run.id}`}>
          Result<span className="spoken"> of {run.bench}</span>
        </Link>
        <PhoneLink run={run.id} bench={run.bench} />
      </span>
    </li>
  );
}
