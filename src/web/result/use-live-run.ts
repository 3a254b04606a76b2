import { useEffect } from 'react';
import { queryClient, useRun } from '../api/queries.ts';
import type { KeptEntry, RunOpened } from '../../wire/run.ts';

/** Entries that came are added once each, by their number in the store. */
export function withKept(run: RunOpened, came: readonly KeptEntry[]): RunOpened {
  const known = new Set(run.kept.map(({ seq }) => seq));
  const fresh = came.filter(({ seq }) => !known.has(seq));
  if (fresh.length === 0) return run;
  const kept = [...run.kept, ...fresh].sort((a, b) => a.seq - b.seq);
  return { ...run, kept, entries: kept.length };
}

/** A run that grows while the bench writes. A lost line is taken up again by the browser itself. */
export function useLiveRun(id: string) {
  const run = useRun(id);
  const opened = run.data !== undefined;
  useEffect(() => {
    if (!opened) return undefined;
    const path = `/api/runs/${id}`;
    const held = queryClient.getQueryData<RunOpened>([path]);
    const last = held?.kept.at(-1)?.seq ?? 0;
    const feed = new EventSource(`${path}/feed?after=${last}`);
    feed.addEventListener('entries', ({ data }: MessageEvent<string>) => {
      const came = JSON.parse(data) as KeptEntry[];
      queryClient.setQueryData<RunOpened>([path], (now) => now && withKept(now, came));
    });
    return () => feed.close();
  }, [id, opened]);
  return run;
}
