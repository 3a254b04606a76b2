import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { loadDemo } from '../../store/demo.ts';
import type { DemoExperiment } from '../../store/demo.ts';
import type { Kept, Store } from '../../store/store.ts';

/** The course is invented, its college as well. */
const AUTHOR = 'Sallowfield College';

/** "bench-2-tare-missing.csv" is the record of Bench 2. */
const RECORD = /^bench-(\d+)(?:-[\w-]+)?\.csv$/;

function experimentIn(folder: string): DemoExperiment {
  const runs = readdirSync(folder)
    .sort()
    .flatMap((file) => {
      const number = RECORD.exec(file)?.[1];
      if (number === undefined) return [];
      return [{ bench: `Bench ${number}`, csv: readFileSync(join(folder, file), 'utf8') }];
    });
  const text = readFileSync(join(folder, 'experiment.md'), 'utf8');
  return { text, runs, files: filesIn(join(folder, 'files')) };
}

/** What instruments wrote for these records; invented, as the course is. */
function filesIn(folder: string): Uint8Array[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .sort()
    .map((file) => new Uint8Array(readFileSync(join(folder, file))));
}

/** The experiments of a folder of them; that which the file `demo` names comes first. */
export function experimentsIn(examples: string): DemoExperiment[] {
  const named = join(examples, 'demo');
  const first = existsSync(named) ? readFileSync(named, 'utf8').trim() : '';
  const names = readdirSync(examples, { withFileTypes: true })
    .filter(
      (entry) => entry.isDirectory() && existsSync(join(examples, entry.name, 'experiment.md')),
    )
    .map((entry) => entry.name)
    .sort((a, b) => Number(b === first) - Number(a === first) || (a < b ? -1 : 1));
  return names.map((name) => experimentIn(join(examples, name)));
}

/** Puts the course of the examples into a store that holds nothing yet. */
export async function loadDemonstration(store: Store, examples: string): Promise<Kept<boolean>> {
  // Asked here first: a store that is in use need not wait until the examples are read.
  if (!(await store.isEmpty()) || !existsSync(examples)) return { ok: true, value: false };
  return loadDemo(store, { by: AUTHOR, experiments: experimentsIn(examples) });
}
