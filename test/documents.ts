import { existsSync, readFileSync, readdirSync } from 'node:fs';

const root = new URL('../', import.meta.url);

/** Every document of examples/ and test/published/yields/: its path and its text. For tests only. */
export function documents(): [path: string, text: string][] {
  const examples = readdirSync(new URL('examples/', root))
    .map((name) => `examples/${name}/experiment.md`)
    .filter((path) => existsSync(new URL(path, root)));
  const published = readdirSync(new URL('test/published/yields/', root))
    .filter((name) => name.endsWith('.md'))
    .map((name) => `test/published/yields/${name}`);
  return [...examples, ...published].map((path) => [
    path,
    readFileSync(new URL(path, root), 'utf8'),
  ]);
}
