import { describe, expect, it } from 'vitest';
import { inPortions, readRecordFile, recordFileName, recordText } from './record-file.ts';
import { openedRun } from './testing.ts';

const run = openedRun('cyclohexanol', 3);
const entries = run.kept.map(({ entry }) => entry);
const CHANGED = Date.parse('2026-01-10T09:00:00Z');
const TABLE = 'kind,step,item,vessel,value,unit\ncharge,1,95 % ethanol,,10,mL\n';

describe('a record as a file', () => {
  it.each(['csv', 'json'] as const)('comes back from %s as it was', async (form) => {
    const text = await recordText(entries, form);
    expect(await readRecordFile(text, CHANGED)).toEqual({ entries, diagnostics: [] });
  });

  it('has ids of its own where the table has none, the same each time', async () => {
    const [first] = (await readRecordFile(TABLE, CHANGED)).entries;
    const [again] = (await readRecordFile(TABLE, CHANGED)).entries;
    const [other] = (await readRecordFile(TABLE.replace('10', '12'), CHANGED)).entries;
    expect(first).toEqual(again);
    expect(first!.id).not.toBe(other!.id);
  });

  it('keeps what a correction of such a table points at', async () => {
    const table =
      'kind,step,item,value,unit,corrects\ncharge,1,95 % ethanol,10,mL,\ncorrection,,,11,mL,row 2\n';
    const [charge, correction] = (await readRecordFile(table, CHANGED)).entries;
    expect(correction!.corrects).toBe(charge!.id);
  });

  it('says of a file that is no record what one looks like', async () => {
    const { entries: none, diagnostics } = await readRecordFile('a picture', CHANGED);
    expect(none).toEqual([]);
    expect(diagnostics[0]!.hint).toBeDefined();
  });

  it('is named for its bench and its experiment', () => {
    expect(recordFileName({ ...run, bench: 'Bänk 4/b', title: 'Ester: a "trial"' }, 'csv')).toBe(
      'bank-4-b-ester-a-trial.csv',
    );
    expect(recordFileName({ ...run, bench: '', title: '' }, 'json')).toBe('bench-record.json');
  });

  it('is sent in portions that lose nothing', () => {
    const many = Array.from({ length: 450 }, (_, i) => ({ ...entries[0]!, id: `e${i}` }));
    const portions = inPortions(many);
    expect(portions.map(({ length }) => length)).toEqual([200, 200, 50]);
    expect(portions.flat()).toEqual(many);
  });
});
