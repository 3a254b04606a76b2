import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { exampleFolders, openExample } from '../../../test/example-folder.ts';
import type { FlowRow, FlowSheet } from '../../core/report/flow/flow.ts';
import { flowSheet } from '../../core/report/flow/flow.ts';
import { flowSheetParts, flowSheetPicture } from './flow-sheet.ts';
import type { FlowSheetParts } from './flow-sheet.ts';
import type { FlowSheetPart } from './parts.ts';
import { flowWords } from './words.ts';

const EXAMPLES = exampleFolders().map((folder) => {
  const { experiment, plan } = openExample(folder);
  return { folder, sheet: flowSheet(experiment, plan), words: flowWords(plan, experiment) };
});
const { sheet, words } = EXAMPLES.find(({ folder }) => folder === 'cyclohexanol')!;

/** Keys of the pieces that a page would have to put in anew. */
function changed(before: FlowSheetParts, after: FlowSheetParts): string[] {
  const drawn = new Map(before.parts.map(({ key, svg }) => [key, svg]));
  return after.parts.filter(({ key, svg }) => drawn.get(key) !== svg).map(({ key }) => key);
}

const withRow = (of: FlowSheet, at: number, change: (row: FlowRow) => FlowRow): FlowSheet => ({
  ...of,
  rows: of.rows.map((row, i) => (i === at ? change(row) : row)),
});

const sheetOf = (parts: readonly FlowSheetPart[]) => parts.map(({ svg }) => svg).join('');

describe.each(EXAMPLES)('the pieces of $folder', ({ sheet: flow, words: told }) => {
  it.each([320, 1200])('are one a step, spoken, and under keys of their own, %d px', (width) => {
    const { parts } = flowSheetParts(flow, { width, words: told });
    expect(new Set(parts.map(({ key }) => key)).size).toBe(parts.length);
    const rows = parts.filter(({ step }) => step !== undefined);
    expect(rows.map(({ step }) => step)).toEqual(flow.rows.map(({ step }) => step));
    for (const { svg } of rows) expect(svg).toMatch(/^<g role="listitem" .*?aria-label="Step /);
    for (const { svg } of parts.filter(({ step }) => step === undefined))
      expect(svg).toMatch(/^<g aria-hidden="true">/);
  });

  it('hold to a strict policy for content: no style written in, no script', () => {
    const { parts, defs } = flowSheetParts(flow, { words: told, selected: flow.rows[1]!.step });
    expect(defs + sheetOf(parts)).not.toMatch(/\sstyle=|<style|<script|\son\w+=|#[\da-f]{6}/);
  });

  it('stand one under the other', () => {
    const { parts, height } = flowSheetParts(flow, { width: 1200, form: 'wide', words: told });
    const tops = parts.filter(({ step }) => step !== undefined).map(({ y }) => y);
    expect(tops).toEqual([...tops].sort((a, b) => a - b));
    expect(Math.max(...parts.map(({ y }) => y))).toBeLessThan(height);
  });
});

describe('what a page has to change', () => {
  it.each(['wide', 'narrow'] as const)('is one piece when a step is selected, %s', (form) => {
    const before = flowSheetParts(sheet, { form, words });
    const after = flowSheetParts(sheet, { form, words, selected: '6' });
    expect(changed(before, after)).toEqual(['selected']);
    const moved = flowSheetParts(sheet, { form, words, selected: '8' });
    expect(moved.parts.map(({ key }) => key)).toEqual(after.parts.map(({ key }) => key));
  });

  it.each(['wide', 'narrow'] as const)('is only the row whose sentence grew, %s', (form) => {
    const width = { wide: 1200, narrow: 390 }[form];
    const long = withRow(sheet, 1, (row) => ({
      ...row,
      label: `${row.label}, and then leave it alone until everybody has come back from the balance`,
    }));
    const before = flowSheetParts(sheet, { form, width });
    const after = flowSheetParts(long, { form, width });
    const step = sheet.rows[1]!.step;
    const redrawn = changed(before, after).filter((key) => !key.startsWith('life '));
    expect(redrawn).toEqual([`step ${step}`]);
    const yOf = ({ parts }: FlowSheetParts) => parts.at(-1)!.y;
    expect(yOf(after)).toBeGreaterThan(yOf(before) + 10);
  });
});

it('has a rule in flow-sheet.css for every colour that it names', () => {
  const css = readFileSync(new URL('flow-sheet.css', import.meta.url), 'utf8');
  const selected = sheet.rows[0]!.step;
  const drawn = EXAMPLES.map(({ sheet: flow, words: told }) => {
    const { parts, defs } = flowSheetParts(flow, { words: told, selected });
    return defs + sheetOf(parts);
  });
  const named = drawn.flatMap((svg) =>
    [...svg.matchAll(/class="([^"]*)"/g)].flatMap((match) => match[1]!.split(' ')),
  );
  expect(named.length).toBeGreaterThan(100);
  for (const name of new Set(named)) expect(css).toMatch(new RegExp(`\\.${name} \\{`));
});

it('is narrow where a wide sheet would be too small to read', () => {
  const formAt = (width: number) => {
    const { viewBox } = flowSheetParts(sheet, { width, words });
    return viewBox.startsWith(`0 0 ${width} `) ? 'as it is' : 'scaled';
  };
  expect(formAt(390)).toBe('as it is');
  expect(formAt(1440)).toBe('as it is');
  const narrow = flowSheetPicture(sheet, { width: 390, form: 'fitting', words });
  expect(narrow).toBe(flowSheetPicture(sheet, { width: 390, form: 'narrow', words }));
});

describe('an arrow', () => {
  const headOf = (gas: boolean) => {
    const rows = sheet.rows.map((row) => ({
      ...row,
      passages: row.passages.map((passage) => ({ ...passage, gas })),
    }));
    const { parts } = flowSheetParts({ ...sheet, rows }, { form: 'wide' });
    return sheetOf(parts.filter(({ step }) => step === '1'));
  };

  it('has an open head for a gas and a full one for the rest', () => {
    expect(headOf(true)).not.toContain('Z" class="fs-fill-ink"');
    expect(headOf(false)).toContain('Z" class="fs-fill-ink"');
  });
});
