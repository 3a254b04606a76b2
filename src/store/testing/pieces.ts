import type { BenchEntry } from '../../core/record/entry.ts';
import type { Store } from '../store.ts';
import { valueOf } from './value-of.ts';

export const EXPERIMENT = 'experiment-1';
export const RUN = 'run-of-bench-1';

export const TEXT = '# Benzoic acid\n\nCourse: Practical Organic Chemistry 1\n\n## Procedure\n';

export function net(id: string, value_g = 1.12): BenchEntry {
  return { id, at: '2026-02-03T10:00:00Z', by: 'R. T.', kind: 'net', value: value_g, unit: 'g' };
}

/** An experiment and a bench record, for what is written into it. */
export async function begin(store: Store, run = RUN): Promise<void> {
  const { head } = valueOf(await store.addExperiment({ id: EXPERIMENT, text: TEXT }, 'R. T.'));
  valueOf(
    await store.addRun({
      id: run,
      experiment: EXPERIMENT,
      document: head.document,
      bench: 'Bench 1',
    }),
  );
}
