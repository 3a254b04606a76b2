import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { readCsvRecord } from '../core/record/csv.ts';
import type { Demo } from './demo.ts';
import { loadDemo } from './demo.ts';
import { forEachKind } from './testing/kinds.ts';
import { codeOf, valueOf } from './testing/value-of.ts';

const EXAMPLES = new URL('../../examples/', import.meta.url);
const textOf = (path: string) => readFileSync(new URL(path, EXAMPLES), 'utf8');

/** The examples as they are, the demonstration before the others. */
function examples(): Demo {
  const folders = readdirSync(EXAMPLES, { withFileTypes: true })
    .filter((each) => each.isDirectory())
    .map(({ name }) => name);
  const first = textOf('demo').trim();
  const ordered = [first, ...folders.filter((name) => name !== first)];
  return {
    by: 'R. Tamsin',
    experiments: ordered.map((folder) => ({
      text: textOf(`${folder}/experiment.md`),
      runs: readdirSync(new URL(`${folder}/`, EXAMPLES))
        .filter((name) => name.endsWith('.csv'))
        .map((name, i) => ({ bench: `Bench ${i + 1}`, csv: textOf(`${folder}/${name}`) })),
    })),
  };
}

forEachKind('the demonstration', ({ place }) => {
  it('is put into an empty store once, with every line of its records', async () => {
    const store = await (await place()).open();
    const demo = examples();
    expect(valueOf(await loadDemo(store, demo))).toBe(true);
    const shelf = await store.experiments();
    const titles = demo.experiments.map(({ text }) => /^# (.*)$/m.exec(text)![1]);
    expect(shelf.map(({ title }) => title)).toEqual(titles);
    const lines = demo.experiments.flatMap(({ runs }) =>
      runs.map(({ csv }) => readCsvRecord(csv).entries.length),
    );
    const runs = (await Promise.all(shelf.map(({ id }) => store.runs(id)))).flat();
    const inOrder = (counts: number[]) => counts.sort((a, b) => a - b);
    expect(inOrder(runs.map(({ entries }) => entries))).toEqual(inOrder(lines));
    for (const { document, startedAt, id } of runs) {
      expect(startedAt > '2025').toBe(true);
      const kept = await store.entries(id);
      expect(kept.every(({ entry }) => entry.document === document)).toBe(true);
    }
    expect(valueOf(await loadDemo(store, demo))).toBe(false);
    expect(await store.experiments()).toEqual(shelf);
  });

  it('with a record that cannot be read is refused whole', async () => {
    const store = await (await place()).open();
    const demo = examples();
    const [first] = demo.experiments;
    const runs = [{ bench: 'Bench 1', csv: 'kind,value\nnothing,1\n' }];
    const broken = { ...demo, experiments: [first!, { text: '# Broken', runs }] };
    expect(codeOf(await loadDemo(store, broken))).toBe('demo-unreadable');
    expect(await store.isEmpty()).toBe(true);
  });
});
