import type { BenchEntry } from '../../../core/record/entry.ts';
import type { Acknowledged, RunOpened } from '../../../wire/run.ts';
import type { Settings } from '../../../wire/settings.ts';
import { request } from '../../api/request.ts';
import type { BenchSheet } from '../sheet.ts';
import type { WaitingFile } from './database.ts';

/** What a bench record asks of the server. Each throws `Refused`, or an error where it took too long. */
export interface Server {
  readonly run: (run: string) => Promise<RunOpened>;
  readonly sheet: (run: string) => Promise<BenchSheet>;
  readonly settings: () => Promise<Settings>;
  readonly sendEntries: (run: string, entries: readonly BenchEntry[]) => Promise<Acknowledged>;
  readonly sendFile: (file: WaitingFile) => Promise<unknown>;
}

/** A network that neither answers nor fails is as good as none. */
const ANSWER_ms = 20_000;
const FILE_ms = 120_000;

const within = (ms: number) => ({ signal: AbortSignal.timeout(ms) });

export const server: Server = {
  run: (run) => request(`/api/runs/${run}`, within(ANSWER_ms)),
  sheet: (run) => request(`/api/runs/${run}/sheet`, within(ANSWER_ms)),
  settings: () => request('/api/settings', within(ANSWER_ms)),
  sendEntries: (run, entries) =>
    request(`/api/runs/${run}/entries`, {
      method: 'POST',
      body: { entries },
      ...within(ANSWER_ms),
    }),
  sendFile: ({ hash, mediaType, bytes }) =>
    request(`/api/attachments/${hash}`, {
      method: 'PUT',
      body: new Blob([bytes], { type: mediaType }),
      ...within(FILE_ms),
    }),
};
