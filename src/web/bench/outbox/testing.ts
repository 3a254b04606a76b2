import type { BenchEntry } from '../../../core/record/entry.ts';
import { contentOf } from '../../../core/record/order.ts';
import type { KeptEntry, RunOpened } from '../../../wire/run.ts';
import { DEFAULT_SETTINGS } from '../../../wire/settings.ts';
import { Refused } from '../../api/request.ts';
import type { BenchSheet } from '../sheet.ts';
import type { Server } from './server.ts';

export const RUN = 'run-00000001';

export const SHEET: BenchSheet = {
  title: 'Benzoic acid from sodium benzoate',
  course: null,
  answer: 'It makes 1.22 g of benzoic acid at most.',
  product: 'benzoic acid',
  steps: [],
};

export const entry = (id: string, said: Partial<BenchEntry> = {}): BenchEntry => ({
  id,
  at: '2026-02-03T10:00:00.000Z',
  by: 'RK',
  kind: 'observation',
  text: id,
  ...said,
});

export const LOST = new Refused(0, { code: 'no-network', message: 'No network.' });
export const refusedWith = (status: number) =>
  new Refused(status, { code: `refused-${status}`, message: `Refused with ${status}.` });

/** A server in memory that keeps entries as the real one does; `fault` may break any request. */
export function serverInMemory() {
  const kept: KeptEntry[] = [];
  const files = new Set<string>();
  const requests: (readonly string[])[] = [];
  const faults: { before?: (ids: readonly string[]) => void; after?: () => void } = {};
  const refuses = new Map<string, Refused>();
  const opened = (): RunOpened => ({
    id: RUN,
    experiment: 'exp-00000001',
    document: 'd'.repeat(64),
    versionNumber: 1,
    title: SHEET.title,
    bench: 'Bench 4',
    startedAt: '2026-02-03T09:00:00.000Z',
    entries: kept.length,
    text: '# Benzoic acid',
    kept: [...kept],
  });
  const keep = (given: BenchEntry): number => {
    const before = kept.find(({ entry: { id } }) => id === given.id);
    if (before === undefined) {
      kept.push({ seq: kept.length + 1, receivedAt: given.at, entry: given });
      return kept.length;
    }
    if (contentOf(before.entry) !== contentOf(given)) throw refusedWith(409);
    return before.seq;
  };
  const server: Server = {
    run: async () => opened(),
    sheet: async () => SHEET,
    settings: async () => DEFAULT_SETTINGS,
    sendEntries: async (_run, entries) => {
      const ids = entries.map(({ id }) => id);
      requests.push(ids);
      faults.before?.(ids);
      // All or none, as the store does it.
      for (const id of ids) if (refuses.has(id)) throw refuses.get(id)!;
      const acknowledged = entries.map((each) => ({ id: each.id, seq: keep(each) }));
      faults.after?.();
      return { acknowledged };
    },
    sendFile: async ({ hash }) => {
      requests.push([hash]);
      faults.before?.([hash]);
      if (refuses.has(hash)) throw refuses.get(hash)!;
      files.add(hash);
      faults.after?.();
      return { hash };
    },
  };
  return { server, kept, files, requests, faults, refuses, keep };
}
