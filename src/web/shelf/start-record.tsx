import { useRef, useState } from 'react';
import type { FormEvent } from 'react';
import type { ExperimentSummary } from '../../wire/experiment.ts';
import type { NewRun, Run } from '../../wire/run.ts';
import { Refused, request } from '../api/request.ts';
import { Button } from '../ui/button.tsx';
import { newId } from '../ui/id.ts';

/** Who or where, and the bench record opens: another program, so the page is left. */
export function StartRecord({ experiment }: { readonly experiment: ExperimentSummary }) {
  const [bench, setBench] = useState('');
  const [wrong, setWrong] = useState<string>();
  const id = useRef(newId());

  const start = async (event: FormEvent) => {
    event.preventDefault();
    const name = bench.trim();
    if (name === '') return setWrong('Say which bench, or who works there.');
    const body: NewRun = {
      id: id.current,
      experiment: experiment.id,
      document: experiment.head.document,
      bench: name,
    };
    try {
      const run = await request<Run>('/api/runs', { method: 'POST', body });
      window.location.assign(`/bench/${run.id}`);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      setWrong(error.refusal.message);
    }
  };

  const field = `bench-${experiment.id}`;
  return (
    <form className="shelf-start" onSubmit={(event) => void start(event)}>
      <label htmlFor={field}>Bench, or who works there</label>
      <input
        id={field}
        type="text"
        maxLength={80}
        autoComplete="off"
        value={bench}
        aria-describedby={wrong === undefined ? undefined : `${field}-wrong`}
        aria-invalid={wrong !== undefined}
        onChange={(event) => setBench(event.target.value)}
      />
      <Button type="submit">Start a bench record</Button>
      <p id={`${field}-wrong`} className="wrong" role="status">
        {wrong}
      </p>
    </form>
  );
}
