import { readFileSync, readdirSync } from 'node:fs';
import { expect, it } from 'vitest';

const folder = new URL('./', import.meta.url);
const guide = readFileSync(new URL('../../../docs/diagnostics.md', import.meta.url), 'utf8');

function sources(at: URL): string[] {
  return readdirSync(at, { withFileTypes: true }).flatMap((entry) => {
    if (entry.isDirectory()) return sources(new URL(`${entry.name}/`, at));
    const source = entry.name.endsWith('.ts') && !entry.name.endsWith('.test.ts');
    return source ? [readFileSync(new URL(entry.name, at), 'utf8')] : [];
  });
}

/** A code stands before its severity, which may depend on something. */
const CODE = /'([a-z]+(?:-[a-z]+)*)',\s+(?:[^'\n]*\?\s*)?'(?:error|warning|note)'/g;

it('every code of the kernel has its entry in docs/diagnostics.md', () => {
  const codes = new Set(sources(folder).flatMap((s) => [...s.matchAll(CODE)].map((m) => m[1]!)));
  expect(codes.size).toBeGreaterThan(25);
  expect([...codes].filter((code) => !guide.includes(`### ${code}\n`))).toEqual([]);
});
