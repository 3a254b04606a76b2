import { readFileSync, readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import { LIMITS, readExperiment } from './read.ts';

const guide = readFileSync(new URL('../../../docs/diagnostics.md', import.meta.url), 'utf8');

function sources(at: URL): string[] {
  return readdirSync(at, { withFileTypes: true }).flatMap((entry) => {
    if (entry.isDirectory()) return sources(new URL(`${entry.name}/`, at));
    const source = entry.name.endsWith('.ts') && !entry.name.endsWith('.test.ts');
    return source ? [readFileSync(new URL(entry.name, at), 'utf8')] : [];
  });
}

/** Codes stand behind `code:`, or first in a call that reports. */
function codesIn(source: string): string[] {
  const lines = source.match(/^.*(?:code: |(?:report|remark)\(\s*').*$/gm) ?? [];
  const broken = source.match(/(?:report|remark)\(\s*'[a-z-]+'/g) ?? [];
  return [...lines, ...broken].flatMap((line) =>
    [...line.matchAll(/(?:code: [^{}]*?|\? |: |\(\s*)'([a-z]+(?:-[a-z]+)+)'/g)].map((m) => m[1]!),
  );
}

const emitted = [...new Set(sources(new URL('./', import.meta.url)).flatMap(codesIn))].sort();

/** The entry of a code: from its heading to the next one. */
function entryOf(code: string): string {
  const from = guide.indexOf(`### ${code}\n`);
  return from < 0 ? '' : guide.slice(from).split(/\n(?:### |## From )/)[0]!;
}

/** Examples that no page can hold. */
const BUILT: Readonly<Record<string, string>> = {
  'document-too-large': 'x'.repeat(LIMITS.characters + 1),
  'document-not-text': 'PK\u0000\u0003',
};

function exampleOf(code: string): string {
  const built = BUILT[code];
  if (built !== undefined) return built;
  const entry = entryOf(code);
  const block = /```markdown\n([\s\S]*?)```/.exec(entry);
  if (block) return block[1]!;
  const sentence = /`([^`]+)`/.exec(entry)?.[1] ?? '';
  return `# Trial\n\n## Procedure\n\n1. ${sentence}\n`;
}

test('the codes are found', () => {
  expect(emitted.length).toBeGreaterThanOrEqual(20);
});

test.each(emitted)('%s has its entry, and its example calls it forth', (code) => {
  expect(entryOf(code)).not.toBe('');
  const { diagnostics } = readExperiment(exampleOf(code));
  expect(diagnostics.map((diagnostic) => diagnostic.code)).toContain(code);
  const one = diagnostics.find((diagnostic) => diagnostic.code === code)!;
  expect(one.message).not.toBe('');
  expect(one.hint ?? '').not.toBe('');
});
