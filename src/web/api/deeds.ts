import type { ExperimentOpened, NewVersion, Version } from '../../wire/experiment.ts';
import type { NewRun, Run } from '../../wire/run.ts';
import { request } from './request.ts';

const of = (experiment: string) => `/api/experiments/${experiment}`;

export const newest = (experiment: string) => request<ExperimentOpened>(of(experiment));

/** `last`: the page is going away; the browser then carries the request on its own, up to 64 kB. */
export const saveVersion = (experiment: string, given: NewVersion, last: boolean) =>
  request<Version>(`${of(experiment)}/versions`, { method: 'POST', body: given, keepalive: last });

export const nameVersion = (experiment: string, number: number, name: string | null) =>
  request<Version>(`${of(experiment)}/versions/${number}`, { method: 'PATCH', body: { name } });

export const startRun = (run: NewRun) => request<Run>('/api/runs', { method: 'POST', body: run });

export const linkTo = (run: string) =>
  request<{ readonly path: string; readonly expiresAt: string }>('/api/links', {
    method: 'POST',
    body: { run },
  });

export const schemeOf = (text: string, dark: boolean, signal: AbortSignal) =>
  request<{ readonly svg: string | null }>('/api/schemes', {
    method: 'POST',
    body: { text, dark },
    signal,
  });

export interface StructureAnswer {
  readonly ok: boolean;
  readonly canonical?: string;
  readonly formula?: string;
  readonly message?: string;
}

export const structureOf = (smiles: string, signal: AbortSignal) =>
  request<StructureAnswer>('/api/structures', { method: 'POST', body: { smiles }, signal });
