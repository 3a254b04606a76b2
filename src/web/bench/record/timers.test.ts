import { describe, expect, it } from 'vitest';
import type { BenchEntry } from '../../../core/record/entry.ts';
import { FINISHED, stamp, STARTED, withdrawal } from './new-entry.ts';
import { placeLines } from './place.ts';
import { linesOf } from './standing.ts';
import { clockText, durationText, timersOf } from './timers.ts';
import type { BenchSheet } from '../sheet.ts';

const step = (id: string, duration_min?: number) => ({
  id,
  item: id,
  section: null,
  sentence: 'Stir.',
  cautions: [],
  fields: [],
  ...(duration_min !== undefined && { wait: { duration_min, what: 'Stirring, flask' } }),
});
const SHEET: BenchSheet = {
  title: '',
  course: null,
  answer: '',
  product: null,
  steps: [step('1', 20), step('2'), step('3', 5)],
};

const START = Date.parse('2026-02-03T10:00:00.000Z');
const at = (minute: number) => ({
  run: { bench: 'Bench 4', document: 'd' },
  by: 'RK',
  now: () => new Date(START + minute * 60_000),
});
const running = (entries: readonly BenchEntry[]) =>
  timersOf(SHEET, placeLines(linesOf(entries), SHEET)).map(({ step: id, endsAt_ms }) => [
    id,
    (endsAt_ms - START) / 60_000,
  ]);

describe('timers', () => {
  const started = stamp(at(0), '1', STARTED);

  it('run from the stamp that stands, several at once', () => {
    expect(running([started, stamp(at(2), '3', STARTED), stamp(at(2), '2', STARTED)])).toEqual([
      ['1', 20],
      ['3', 7],
    ]);
  });

  it('end with "Finished", and begin again', () => {
    const finished = stamp(at(5), '1', FINISHED);
    expect(running([started, finished])).toEqual([]);
    expect(running([started, finished, stamp(at(6), '1', STARTED)])).toEqual([['1', 26]]);
  });

  it('stop when the stamp is withdrawn', () => {
    expect(running([started, withdrawal(at(1), started, '')])).toEqual([]);
  });
});

it.each([
  [1_200_000, '20:00'],
  [1_199_001, '20:00'],
  [61_000, '1:01'],
  [3_725_000, '1:02:05'],
  [0, '0:00'],
  [-30_000, '+0:30'],
])('%s ms left are shown as %s', (left_ms, text) => {
  expect(clockText(left_ms)).toBe(text);
});

it.each([
  [20, '20\u202fmin'],
  [90, '1\u202fh 30\u202fmin'],
  [120, '2\u202fh'],
  [0.5, '30\u202fs'],
])('%s min are %s', (duration_min, text) => {
  expect(durationText(duration_min)).toBe(text);
});
