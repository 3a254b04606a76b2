import { expect, it } from 'vitest';
import { entry } from './outbox/testing.ts';
import { FINISHED, STARTED } from './record/new-entry.ts';
import { linesOfStep, placeLines } from './record/place.ts';
import { linesOf } from './record/standing.ts';
import { timeOfDay } from './record/timers.ts';
import { doneText } from './step-list.tsx';
import { KETONE, stepWith } from './testing.tsx';
import { SHEET } from './outbox/testing.ts';

const at = '2026-02-03T10:42:00.000Z';
const GROSS = {
  ...KETONE,
  key: 'gross',
  kind: 'gross',
  vessel: 'flask',
  n: 1,
  again: true,
} as const;
const { use: _use, item: _item, ...FLASK } = GROSS;
const charge = entry('c', { kind: 'charge', step: '1', use: '1.1', value: 1.12, unit: 'g' });
const gross = entry('g', { kind: 'gross', step: '1', vessel: 'flask', value: 59, unit: 'g', n: 1 });
const time = (id: string, text: string) => entry(id, { kind: 'time', step: '1', text, at });

it.each([
  ['nothing', [], ''],
  ['one of two', [charge], '1 of 2 entered'],
  ['all, and a further weighing that may follow is not missed', [charge, gross], '2 of 2 entered'],
  ['begun', [time('s', STARTED)], `since ${timeOfDay(at)}`],
  ['over', [time('s', STARTED), time('t', FINISHED)], `${timeOfDay(at)}–${timeOfDay(at)}`],
  ['seen', [entry('o', { step: '1' }), entry('p', { step: '1' })], '2 observations'],
  ['withdrawn', [charge, entry('w', { kind: 'correction', corrects: 'c', at, text: 'spilt' })], ''],
])('says what was done at a step: %s', (_name, entries, text) => {
  const step = stepWith(KETONE, FLASK);
  const placed = placeLines(linesOf(entries), { ...SHEET, steps: [step] });
  expect(doneText(linesOfStep(placed, '1'))).toBe(text);
});
