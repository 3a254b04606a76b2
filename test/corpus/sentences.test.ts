import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { faultsIn } from './check.ts';

/** Sentences as teachers and papers write them, with what a chemist takes each to say. */
const rows = readFileSync(new URL('sentences.tsv', import.meta.url), 'utf8')
  .trimEnd()
  .split('\n')
  .slice(1)
  .map((line) => {
    const [sentence = '', verbs = '', slots = '', known = ''] = line.split('\t');
    return { sentence, verbs, slots, known };
  });

describe('sentences', () => {
  test.each(rows.filter(({ known }) => known === ''))('$sentence', (row) => {
    expect(faultsIn(row)).toEqual([]);
  });

  test('no more than one in twenty is known to be read otherwise', () => {
    expect(rows.length).toBeGreaterThanOrEqual(400);
    expect(rows.filter(({ known }) => known === 'miss').length / rows.length).toBeLessThan(0.05);
  });
});
