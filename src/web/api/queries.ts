import { QueryClient, useQuery } from '@tanstack/react-query';
import type {
  DocumentAnswer,
  ExperimentOpened,
  ExperimentSummary,
  Version,
} from '../../wire/experiment.ts';
import type { Run, RunOpened } from '../../wire/run.ts';
import type { Session } from '../../wire/session.ts';
import type { Settings } from '../../wire/settings.ts';
import { takeAhead } from './ahead.ts';
import { request, Refused } from './request.ts';

/** A refusal stays one however often it is asked; only a lost network is worth another try. */
export const queryClient = new QueryClient({
  defaultOptions: {
    queries: {
      retry: (count, error) => error instanceof Refused && error.status === 0 && count < 2,
      networkMode: 'always',
      staleTime: 2_000,
    },
    mutations: { networkMode: 'always' },
  },
});

const asked = <T>(path: string) => ({
  queryKey: [path],
  queryFn: () => takeAhead<T>(path) ?? request<T>(path),
});

export const useSession = () => useQuery({ ...asked<Session>('/api/session'), staleTime: 60_000 });
export const useSettings = () => useQuery(asked<Settings>('/api/settings'));
export const useExperiments = () => useQuery(asked<ExperimentSummary[]>('/api/experiments'));
export const useExperiment = (id: string) =>
  useQuery(asked<ExperimentOpened>(`/api/experiments/${id}`));
export const useVersions = (id: string) =>
  useQuery(asked<Version[]>(`/api/experiments/${id}/versions`));
export const useVersion = (id: string, number: number) =>
  useQuery(asked<Version & { text: string }>(`/api/experiments/${id}/versions/${number}`));
/** What the document of this hash makes. It never changes, so it is asked for once. */
export const useDocumentAnswer = (hash: string) =>
  useQuery({ ...asked<DocumentAnswer>(`/api/documents/${hash}/answer`), staleTime: Infinity });
export const useRuns = (experiment?: string) =>
  useQuery(asked<Run[]>(`/api/runs${experiment === undefined ? '' : `?experiment=${experiment}`}`));
export const useRun = (id: string) => useQuery(asked<RunOpened>(`/api/runs/${id}`));

/** After a change: what was asked under these paths is asked again. */
export async function askAgain(...paths: readonly string[]): Promise<void> {
  await Promise.all(
    paths.map((path) =>
      queryClient.invalidateQueries({
        predicate: ({ queryKey }) => String(queryKey[0]).startsWith(path),
      }),
    ),
  );
}
