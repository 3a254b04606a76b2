import { readFileSync, readdirSync } from 'node:fs';
import { expect, it } from 'vitest';
import { makeSubstance } from '../chemistry/substance.ts';
import { evidenceEnteredSchema } from '../evidence/schema.ts';
import type { Subject } from '../evidence/subject.ts';
import type { RunEvidence } from '../record/run.ts';
import { evidenceReport } from './evidence/evidence.ts';

const pageOf = (name: string): string =>
  readFileSync(new URL(`../../../docs/${name}.md`, import.meta.url), 'utf8');
const ofEvidence = pageOf('diagnostics-evidence');
const guide = pageOf('diagnostics') + ofEvidence;

function sources(at: URL): string[] {
  return readdirSync(at, { withFileTypes: true }).flatMap((entry) => {
    if (entry.isDirectory()) return sources(new URL(`${entry.name}/`, at));
    const source = entry.name.endsWith('.ts') && !entry.name.endsWith('.test.ts');
    return source ? [readFileSync(new URL(entry.name, at), 'utf8')] : [];
  });
}

/** Codes are written in two words or more, joined by hyphens; other such texts are module names. */
const CODE =
  /'((?:record|entry|charge|net|correction|tare|yield|not|below|limiting|off|evidence|spectrum|file)-[a-z0-9-]+)'/g;

it.each(['../record/', './'])('every code of %s has its entry in the docs', (folder) => {
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

function codesOfReport(evidence: readonly RunEvidence[], product?: Subject): string[] {
  const report = evidenceReport({
    subjects: { ...(product !== undefined && { product }), others: [] },
    evidence,
    files: new Map(),
    structures: new Map(),
  });
  const said = report.measurements.flatMap(({ diagnostics }) => diagnostics);
  return [...report.diagnostics, ...said].map(({ code }) => code);
}

function productOf(name: string, smiles?: string): Subject {
  const made = makeSubstance({ name, ...(smiles !== undefined && { smiles }) });
  if (!made.ok) throw new Error(made.message);
  return { role: 'product', substance: made.substance, literature: {} };
}

it.each(['file-not-worked-up', 'spectrum-without-file'])(
  'the example of %s calls it forth',
  (code) => {
    const example = new RegExp(`^### ${code}\\n[^#]*?\`([^\`]+)\``, 'm').exec(ofEvidence)![1]!;
    const evidence = evidenceEnteredSchema.parse(JSON.parse(example));
    const entry = { id: '1', at: '2026-03-02', by: 'a bench', kind: 'evidence', evidence } as const;
    const product = productOf('cyclohexanol', 'OC1CCCCC1');
    expect(codesOfReport([{ entry, evidence }], product)).toEqual([code]);
  },
);

it('a product that is not named, or whose structure is not known, is said', () => {
  expect(codesOfReport([])).toEqual(['evidence-no-product']);
  expect(codesOfReport([], productOf('resin'))).toEqual(['evidence-no-structure']);
  expect(codesOfReport([], productOf('cyclohexanol', 'OC1CCCCC1'))).toEqual([]);
});
