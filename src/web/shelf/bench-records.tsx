import { Link } from 'react-router';
import type { ExperimentSummary } from '../../wire/experiment.ts';
import { useRuns } from '../api/queries.ts';
import { Waiting } from '../ui/waiting.tsx';
import { whenText } from '../ui/when.ts';
import { StartRecord } from './start-record.tsx';

/** The bench records of one experiment, the newest first, and a way to start another. */
export function BenchRecords({ experiment }: { readonly experiment: ExperimentSummary }) {
  const runs = useRuns(experiment.id);
  return (
    <div className="shelf-records">
      <Waiting of={runs}>
        {(all) => (
          <ul>
            {[...all]
              .sort((a, b) => b.startedAt.localeCompare(a.startedAt))
              .map(({ id, bench, startedAt, entries, versionNumber }) => (
                <li key={id}>
                  <Link to={`/runs/${id}`}>{bench}</Link>
                  <span className="quiet">
                    {whenText(startedAt)}, version {versionNumber},{' '}
                    {entries === 1 ? '1 entry' : `${entries} entries`}
                  </span>
                  <a href={`/bench/${id}`}>
                    Go on weighing <span className="spoken">at {bench}</span>
                  </a>
                </li>
              ))}
          </ul>
        )}
      </Waiting>
      <StartRecord experiment={experiment} />
    </div>
  );
}
