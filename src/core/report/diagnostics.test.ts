import { readFileSync, readdirSync } from 'node:fs';
import { expect, it } from 'vitest';

const guide = readFileSync(new URL('../../../docs/diagnostics.md', import.meta.url), 'utf8');

function sources(at: URL): string[] {
  return readdirSync(at, { withFileTypes: true }).flatMap((entry) => {
    if (entry.isDirectory()) return sources(new URL(`${entry.name}/`, at));
    const source = entry.name.endsWith('.ts') && !entry.name.endsWith('.test.ts');
    return source ? [readFileSync(new URL(entry.name, at), 'utf8')] : [];
  });
}

/** Codes are written in two words or more, joined by hyphens; other such texts are module names. */
const CODE =
  /'((?:record|entry|charge|net|correction|tare|yield|not|below|limiting|off)-[a-z0-9-]+)'/g;

it.each(['../record/', './'])('every code of %s has its entry in docs/diagnostics.md', (folder) => {
  const texts = sources(new URL(folder, import.meta.url));
  const codes = new Set(texts.flatMap((text) => [...text.matchAll(CODE)].map((m) => m[1]!)));
  expect(codes.size).toBeGreaterThan(7);
  const missing = [...codes].filter((code) => !guide.includes(`### ${code}\n`));
  expect(missing).toEqual([]);
});

it('finds every code that stands behind the word code', () => {
  const texts = ['../record/', './'].flatMap((each) => sources(new URL(each, import.meta.url)));
  const named = texts.flatMap((text) => [...text.matchAll(/code: '([a-z0-9-]+)'/g)]);
  expect(named.length).toBeGreaterThan(20);
  for (const [text] of named) expect(text.replace('code: ', '')).toMatch(new RegExp(CODE, ''));
});
