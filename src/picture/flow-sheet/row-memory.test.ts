import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { exampleFolders } from '../../../test/example-folder.ts';
import { tableWith } from '../../core/chemistry/substance.ts';
import { enact } from '../../core/enact/enact.ts';
import { programOf } from '../../core/enact/program.ts';
import { readExperiment } from '../../core/experiment/read.ts';
import { flowSheet } from '../../core/report/flow/flow.ts';
import { flowSheetParts } from './flow-sheet.ts';
import { rowMemory } from './row-memory.ts';
import { sameData } from './same-data.ts';
import { flowWords } from './words.ts';

const TEXTS = exampleFolders().map((folder) =>
  readFileSync(new URL(`../../../examples/${folder}/experiment.md`, import.meta.url), 'utf8'),
);

function sheetOf(text: string) {
  const experiment = readExperiment(text);
  const plan = enact(programOf(experiment), tableWith(experiment.substances));
  return { sheet: flowSheet(experiment, plan), words: flowWords(plan, experiment) };
}

/** Rubbed out, written in, a figure changed: what a hand does to a text. */
const edit = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  out: fc.integer({ min: 0, max: 30 }),
  put: fc.constantFrom('', '4', ' Stir it for 12 min.', ' two', '\n', '\n3. Weigh the solid.\n'),
});
const width = fc.constantFrom(320, 820, 1440, 2400);

describe('a sheet that remembers its rows', () => {
  it('is drawn as one that does not, whatever was shown before', () => {
    const edits = fc.array(fc.tuple(edit, width), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(fc.constantFrom(...TEXTS), edits, (first, changes) => {
        const rows = rowMemory();
        let text = first;
        for (const [{ at, out, put }, across] of changes) {
          const from = Math.floor(at * text.length);
          text = text.slice(0, from) + put + text.slice(from + out);
          const { sheet, words } = sheetOf(text);
          const form = across > 820 ? 'wide' : 'fitting';
          const afresh = flowSheetParts(sheet, { width: across, form, words });
          expect(flowSheetParts(sheet, { width: across, form, words, rows })).toEqual(afresh);
          expect(flowSheetParts(sheet, { width: across, form, words, rows })).toEqual(afresh);
        }
      }),
      { numRuns: 25 },
    );
  });

  it.each([320, 1440])('lays out only the rows that something else is told of, %d px', (across) => {
    const rows = rowMemory();
    const { sheet, words } = sheetOf(TEXTS[0]!);
    flowSheetParts(sheet, { width: across, words, rows });
    const before = rows.rows;
    const last = sheet.rows.at(-1)!;
    const changed = { ...sheet, rows: sheet.rows.with(-1, { ...last, duration_min: 99 }) };
    flowSheetParts(changed, { width: across, words, rows });
    const anew = [...rows.rows].filter(([step, { placed }]) => before.get(step)?.placed !== placed);
    expect(anew.map(([step]) => step)).toEqual([last.step]);
  });
});

it.each([
  [{ a: [1, { b: 'x' }] }, { a: [1, { b: 'x' }] }, true],
  [{ a: [1, { b: 'x' }] }, { a: [1, { b: 'y' }] }, false],
  [{ a: 1 }, { a: 1, b: undefined }, false],
  [{ a: undefined }, { b: undefined }, false],
  [[1, 2], [1], false],
  [[], {}, false],
  [null, {}, false],
])('data %j and %j are the same: %s', (a, b, same) => {
  expect(sameData(a, b)).toBe(same);
  expect(sameData(b, a)).toBe(same);
});
