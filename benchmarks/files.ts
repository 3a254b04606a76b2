import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('..', import.meta.url));
export const benchmarks = join(root, 'benchmarks');

const demoFolder = join(
  root,
  'examples',
  readFileSync(join(root, 'examples', 'demo'), 'utf8').trim(),
);

/** The demonstration: its document, and the plain run of a bench. */
export const demo = {
  document: join(demoFolder, 'experiment.md'),
  record: join(demoFolder, 'bench-1-plain-run.csv'),
} as const;

export const textOf = (path: string): string => readFileSync(path, 'utf8');
export const documentHere = (name: string): string => textOf(join(benchmarks, name));
