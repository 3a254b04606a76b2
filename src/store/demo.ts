import { versionOf } from '../core/experiment/version.ts';
import { readCsvRecord } from '../core/record/csv.ts';
import type { BenchEntry } from '../core/record/entry.ts';
import { instantOf } from '../core/record/order.ts';
import { sha256 } from './attachments.ts';
import { systemNow } from './connection.ts';
import type { StoreOptions } from './connection.ts';
import { kept, refused } from './refusal.ts';
import type { CataloguedRun, Everything, Kept, Receipt, Store } from './store.ts';

/** A course to begin with, as texts that the caller has read. That which comes first lies on top. */
export interface Demo {
  /** Who wrote the experiments. */
  readonly by: string;
  readonly experiments: readonly DemoExperiment[];
}

export interface DemoExperiment {
  readonly text: string;
  /** Bench records as tables. */
  readonly runs: readonly { readonly bench: string; readonly csv: string }[];
  /** Files of instruments that the records name by the hash of their bytes. */
  readonly files?: readonly Uint8Array[];
}

/**
 * Puts the course into an empty store, all of it or nothing; gives whether it did. Rows without a
 * time are dated from the beginning of the first record of their experiment.
 */
export async function loadDemo(
  store: Store,
  demo: Demo,
  { now = systemNow }: StoreOptions = {},
): Promise<Kept<boolean>> {
  if (!(await store.isEmpty())) return kept(false);
  const loaded = Date.parse(now());
  const documents = new Map<string, string>();
  const experiments: Everything['experiments'][number][] = [];
  const runs: CataloguedRun[] = [];
  const receipts = new Map<string, readonly Receipt[]>();
  let seq = 0;
  for (const [i, { text, runs: tables }] of demo.experiments.entries()) {
    const document = await versionOf(text);
    const experiment = idOf(document);
    const savedAt = new Date(loaded - i * 1000).toISOString();
    const version = { number: 1, document, savedAt, savedBy: demo.by, name: null };
    documents.set(document, text);
    experiments.push({ id: experiment, putAway: false, versions: [version] });
    let startAt: string | undefined;
    for (const { bench, csv } of tables) {
      const read = readCsvRecord(csv, { bench, document, ...(startAt && { startAt }) });
      const problem = read.diagnostics.find(({ severity }) => severity === 'error');
      if (problem !== undefined) return unreadable(bench, problem.message);
      const startedAt = new Date(firstInstant(read.entries)).toISOString();
      startAt ??= startedAt;
      const id = idOf(`${document} ${bench}`);
      runs.push({ id, experiment, document, versionNumber: 1, bench, startedAt });
      receipts.set(
        id,
        read.entries.map((entry) => ({
          seq: ++seq,
          receivedAt: savedAt,
          receivedBy: entry.by,
          entry,
        })),
      );
    }
  }
  const settings = await store.settings();
  const attachments = demo.experiments
    .flatMap(({ files = [] }) => files)
    .map((bytes) => ({ hash: sha256(bytes), mediaType: 'application/octet-stream', bytes }));
  const none = { spectra: [] };
  const everything = { settings, experiments, runs, documents, receipts, attachments, ...none };
  const answer = await store.putEverything(everything);
  return answer.ok ? kept(true) : answer;
}

/** The same demonstration has the same ids in every store. */
const idOf = (text: string): string =>
  `demo-${sha256(new TextEncoder().encode(text)).slice(0, 24)}`;

/** The lines need not be in order; a record without any began when time did. */
function firstInstant(entries: readonly BenchEntry[]): number {
  return entries.length === 0 ? 0 : Math.min(...entries.map(({ at }) => instantOf(at)));
}

function unreadable(bench: string, why: string): Kept<never> {
  return refused(
    'demo-unreadable',
    `The demonstration’s record of ${bench} cannot be read: ${why}`,
    'Install Weighboat again, or start it without the demonstration.',
  );
}
