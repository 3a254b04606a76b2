import { useId, useState } from 'react';
import type { FormEvent } from 'react';
import type { Version } from '../../../wire/experiment.ts';
import type { Run } from '../../../wire/run.ts';
import { askAgain, useRuns } from '../../api/queries.ts';
import { Refused } from '../../api/request.ts';
import { Button } from '../../ui/button.tsx';
import { newId } from '../../ui/id.ts';
import { startRun } from '../../api/deeds.ts';
import { nextBench } from './next-bench.ts';
import './bench-records.css';

/** A bench record of the version that is kept: a name for the bench, and it begins; unnamed, it gets the next number. */
export function StartBench({
  experiment,
  settled,
  onStarted,
}: {
  readonly experiment: string;
  /** The version that holds what stands in the text, once it is kept. */
  readonly settled: () => Promise<Version | undefined>;
  readonly onStarted: (run: Run) => void;
}) {
  const id = useId();
  // Made once, so that pressing twice starts one record.
  const [run] = useState(newId);
  const [bench, setBench] = useState('');
  const { data: runs = [] } = useRuns(experiment);
  const suggested = nextBench(runs.map((each) => each.bench));
  const [said, setSaid] = useState('');
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setSaid('Starting …');
    try {
      const version = await settled();
      if (version === undefined)
        return setSaid('The text is not kept as a version yet, and a bench works from a version.');
      const started = await startRun({
        id: run,
        experiment,
        document: version.document,
        bench: bench.trim() || suggested,
      });
      await askAgain('/api/runs', '/api/experiments');
      setSaid('');
      onStarted(started);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      setSaid(`${error.refusal.message} ${error.refusal.hint ?? ''}`);
    }
  };
  return (
    <form className="experiment-inline-form" onSubmit={(event) => void submit(event)}>
      <label htmlFor={id}>Bench</label>
      <input
        id={id}
        value={bench}
        maxLength={80}
        autoFocus
        autoComplete="off"
        placeholder={suggested}
        onChange={(event) => setBench(event.target.value)}
      />
      <Button type="submit" rank="first">
        Start the record
      </Button>
      <span role="status" className="experiment-wrong">
        {said}
      </span>
    </form>
  );
}
