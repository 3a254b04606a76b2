import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openExample } from '../../../../test/example-folder.ts';
import { applyCorrections } from '../../../core/record/correct.ts';
import type { BenchEntry } from '../../../core/record/entry.ts';
import { foldRecord } from '../../../core/record/fold.ts';
import { uniqueInOrder } from '../../../core/record/unique.ts';
import { benchSheet } from '../../../core/report/bench/sheet.ts';
import { correctedReading, reading, stamp, STARTED, withdrawal } from './new-entry.ts';
import type { Writer } from './new-entry.ts';
import { linesOfStep, placeLines } from './place.ts';
import { linesOf } from './standing.ts';

const entry = (id: string, said: Partial<BenchEntry> = {}): BenchEntry => ({
  id,
  at: '2026-02-03T10:00:00.000Z',
  by: 'RK',
  kind: 'gross',
  ...said,
});

/** Each a minute after the one before. */
function writerFrom(by = 'RK'): Writer {
  let time = Date.parse('2026-02-03T10:00:00.000Z');
  const now = () => new Date((time += 60_000));
  return { run: { bench: 'Bench 4', document: 'd'.repeat(64) }, by, now };
}

describe('lines', () => {
  const first = entry('a', { step: '5', vessel: 'dish', value: 45.1, unit: 'g' });

  it('strike what was corrected, with the reason and who', () => {
    const writer = writerFrom('LM');
    const better = correctedReading(writer, first, { value: 45.2 }, 'misread');
    expect(linesOf([first, better])).toEqual([
      {
        entry: first,
        struck: { reason: 'misread', by: 'LM', at: better.at, replaced: true },
      },
      { entry: { ...better, kind: 'gross', step: '5', vessel: 'dish', unit: 'g' } },
    ]);
  });

  it('strike what was withdrawn, and have no line for the withdrawal', () => {
    const back = withdrawal(writerFrom(), first, 'wrong dish');
    expect(linesOf([first, back])).toMatchObject([
      { entry: first, struck: { reason: 'wrong dish', replaced: false } },
    ]);
  });

  it('bring back what was withdrawn by mistake', () => {
    const writer = writerFrom();
    const back = withdrawal(writer, first, 'wrong dish');
    const again = withdrawal(writer, back, 'the right dish after all');
    expect(linesOf([first, back, again])).toEqual([{ entry: first }]);
  });

  it('keep a struck correction at the field of the line that it corrected', () => {
    const writer = writerFrom();
    const second = correctedReading(writer, first, { value: 45.2 }, '');
    const third = correctedReading(writer, second, { value: 45.3 }, '');
    expect(linesOf([first, second, third]).map(({ entry: e }) => [e.vessel, e.value])).toEqual([
      ['dish', 45.1],
      ['dish', 45.2],
      ['dish', 45.3],
    ]);
  });

  it('show a correction whose line is not there, as one that does not count', () => {
    const lost = correctedReading(writerFrom(), first, { value: 45.2 }, '');
    expect(linesOf([lost])).toEqual([{ entry: lost, adrift: true }]);
  });

  it('do not take the other words of an observation for a reason', () => {
    const seen = entry('o', { kind: 'observation', text: 'gas' });
    const better = entry('p', {
      kind: 'correction',
      corrects: 'o',
      text: 'gas, slowly',
      at: '2026-02-03T11:00:00Z',
    });
    const [struck, stands] = linesOf([seen, better]);
    expect(struck!.struck).not.toHaveProperty('reason');
    expect(stands!.entry.text).toBe('gas, slowly');
  });
});

const aRecord = fc
  .array(
    fc.record({
      corrects: fc.option(fc.integer({ min: 0, max: 11 }), { nil: undefined }),
      value: fc.option(fc.integer({ min: 1, max: 99 }), { nil: undefined }),
      text: fc.option(fc.constantFrom('misread', ''), { nil: undefined }),
      kind: fc.constantFrom('gross' as const, 'observation' as const, 'time' as const),
      time: fc.integer({ min: 10, max: 20 }),
    }),
    { maxLength: 12 },
  )
  .map((rows) =>
    rows.map(({ corrects, value, text, kind, time }, i): BenchEntry => ({
      id: `e${i}`,
      at: `2026-02-03T${time}:00:00Z`,
      by: 'RK',
      kind: corrects === undefined ? kind : 'correction',
      ...(corrects !== undefined && { corrects: `e${corrects}` }),
      ...(value !== undefined && { value }),
      ...(text !== undefined && { text }),
    })),
  );

describe('for every record', () => {
  it('what stands is what the core counts, and what is struck is what it strikes', () => {
    fc.assert(
      fc.property(aRecord, (entries) => {
        const { counted } = uniqueInOrder(entries);
        const { standing, struck } = applyCorrections(counted);
        const lines = linesOf(entries);
        const counting = lines.filter(({ struck: s, adrift }) => s === undefined && !adrift);
        expect(counting.map((line) => line.entry)).toEqual(standing);
        const struckIds = new Set(struck.map((each) => each.entry.id));
        for (const { entry: e, struck: strike } of lines)
          expect(struckIds.has(e.id)).toBe(strike !== undefined);
        // No reading is hidden, whatever became of it.
        const shown = new Set(lines.map(({ entry: { id } }) => id));
        for (const { id, value } of counted) if (value !== undefined) expect(shown).toContain(id);
      }),
    );
  });

  it('does not depend on the order of arrival, nor on doubles', () => {
    fc.assert(
      fc.property(aRecord, fc.infiniteStream(fc.nat()), (entries, random) => {
        const mixed = [...entries, ...entries.slice(0, 3)]
          .map((each) => ({ each, at: random.next().value as number }))
          .sort((a, b) => a.at - b.at)
          .map(({ each }) => each);
        expect(linesOf(mixed)).toEqual(linesOf(entries));
      }),
    );
  });
});

describe('a record made with the fields of a sheet', () => {
  const { experiment, plan } = openExample('cyclohexanol');
  const sheet = benchSheet(experiment, plan);
  const places = sheet.steps.flatMap((step) =>
    step.fields
      .filter(({ kind }) => kind === 'charge' || kind === 'tare' || kind === 'gross')
      .map((field) => ({ step: step.id, field })),
  );
  const anAct = fc.record({
    place: fc.constantFrom(...places),
    act: fc.constantFrom('enter', 'correct', 'withdraw'),
    value: fc.integer({ min: 1, max: 99_999 }).map((n) => n / 1000),
  });

  it('has every standing value at its field, and the core counts the same', () => {
    fc.assert(
      fc.property(fc.array(anAct, { maxLength: 25 }), (acts) => {
        const writer = writerFrom();
        const entries: BenchEntry[] = [];
        const standingAt = (step: string, key: string) =>
          (linesOfStep(placeLines(linesOf(entries), sheet), step).byField.get(key) ?? []).filter(
            (line) => line.struck === undefined,
          );
        for (const { place, act, value } of acts) {
          const last = standingAt(place.step, place.field.key).at(-1)?.entry;
          if (act === 'enter') entries.push(reading(writer, place.step, place.field, { value }));
          else if (last === undefined) continue;
          else if (act === 'correct')
            entries.push(correctedReading(writer, last, { value }, 'misread'));
          else entries.push(withdrawal(writer, last, 'wrong vessel'));
        }
        const run = foldRecord(entries, experiment);
        expect(run.diagnostics.filter(({ code }) => code === 'entry-unplaced')).toEqual([]);
        for (const { step, field } of places.filter((each) => each.field.kind === 'charge')) {
          const sum = standingAt(step, field.key).reduce((all, l) => all + l.entry.value!, 0);
          const charge = run.charges.find(({ use }) => use === field.use);
          expect(charge?.value ?? 0).toBeCloseTo(sum, 9);
        }
        const placed = placeLines(linesOf(entries), sheet);
        expect(placed.elsewhere).toEqual([]);
        for (const step of sheet.steps) expect(linesOfStep(placed, step.id).others).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });

  it('offers one more weighing to constant mass than were made', () => {
    const step = sheet.steps.find(({ fields }) => fields.some(({ again }) => again))!;
    const again = step.fields.find((field) => field.again)!;
    const fieldsAfter = (...entries: BenchEntry[]) =>
      linesOfStep(placeLines(linesOf(entries), sheet), step.id).fields.filter(
        ({ vessel, kind }) => kind === 'gross' && vessel === again.vessel,
      );
    const before = fieldsAfter();
    const writer = writerFrom();
    const filled = before.map((field) => reading(writer, step.id, field, { value: 59.3 }));
    const after = fieldsAfter(...filled);
    expect(after).toHaveLength(before.length + 1);
    expect(after.map(({ n }) => n)).toEqual(after.map((_, i) => i + 1));
    expect(new Set(after.map(({ key }) => key)).size).toBe(after.length);
  });

  it('shows what came from a table: times apart, unknown steps elsewhere', () => {
    const entries = [
      stamp(writerFrom(), '4', STARTED),
      entry('o', { kind: 'observation', step: '4', text: 'clear' }),
      entry('x', { kind: 'observation', step: '99', text: 'lost' }),
    ];
    const placed = placeLines(linesOf(entries), sheet);
    expect(linesOfStep(placed, '4').times).toHaveLength(1);
    expect(linesOfStep(placed, '4').others).toHaveLength(1);
    expect(placed.elsewhere.map(({ entry: e }) => e.text)).toEqual(['lost']);
  });
});
