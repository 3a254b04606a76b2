import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

const isProject = (folder: string): boolean => {
  const file = join(folder, 'package.json');
  if (!existsSync(file)) return false;
  return (JSON.parse(readFileSync(file, 'utf8')) as { name?: string }).name === 'weighboat';
};

/** The folder of Weighboat itself, from wherever in it this runs: a source, the bundle, a chunk. */
export function projectFolder(): string {
  let folder = import.meta.dirname;
  while (!isProject(folder)) {
    const above = dirname(folder);
    if (above === folder) throw new Error('the folder of Weighboat is not above its program');
    folder = above;
  }
  return folder;
}
