import { useEffect, useState } from 'react';
import type { Session } from '../../wire/session.ts';
import { request } from '../api/request.ts';
import { useRecord } from './record-context.ts';

/** The way back to the experiment, for who may see it; a phone of a bench sees only its record. */
export function ToExperiment() {
  const { run } = useRecord();
  const [role, setRole] = useState<Session['role']>();
  useEffect(() => {
    const left = new AbortController();
    request<Session>('/api/session', { signal: left.signal }).then(
      (session) => setRole(session.role),
      // Without a network there is no way back either.
      () => {},
    );
    return () => left.abort();
  }, []);
  if (role !== 'instructor') return null;
  return (
    <p className="bench-to-experiment">
      <a href={`/experiments/${run.experiment}`}>Back to the experiment</a>
    </p>
  );
}
