import fc from 'fast-check';
import { expect, test } from 'vitest';
import { VERDICTS } from './spectrum-view.ts';
import type { WindowShown } from './spectrum-view.ts';
import { placeWindows } from './window-lanes.ts';

const anyWindow = fc.record({
  low: fc.integer({ min: 0, max: 900 }),
  size: fc.integer({ min: 5, max: 400 }),
  verdict: fc.constantFrom(...VERDICTS),
  label: fc.string({ minLength: 1, maxLength: 20 }),
  selected: fc.boolean(),
});

test('in one lane neither names nor bars run into each other; the selected one is named first', () => {
  fc.assert(
    fc.property(fc.array(anyWindow, { maxLength: 14 }), (all) => {
      const windows = all.map(({ size, ...rest }, i): WindowShown => ({
        ...rest,
        id: String(i),
        high: rest.low + size,
      }));
      const placed = placeWindows(
        windows,
        ({ low, high }) => [low, high],
        { left: 0, right: 1000 },
        3,
      );
      const spans = placed.map(({ left, right, labelX, labelWidth, lane }) => ({
        lane,
        from: Math.min(left, labelX),
        to: Math.max(right, labelX + labelWidth),
      }));
      spans.forEach((a, i) => {
        for (const b of spans.slice(i + 1))
          if (a.lane >= 0 && a.lane === b.lane) expect(a.to <= b.from || b.to <= a.from).toBe(true);
      });
      if (windows.some(({ selected }) => selected))
        expect(placed.find(({ window }) => window.selected)?.lane).toBe(0);
    }),
  );
});

test('a window out of sight is not placed, one at the edge is cut there', () => {
  const window = (id: string, low: number, high: number): WindowShown => ({
    id,
    low,
    high,
    label: 'C=O',
    verdict: 'present',
  });
  const placed = placeWindows(
    [window('out', -50, -10), window('edge', -20, 30)],
    ({ low, high }) => [low, high],
    { left: 0, right: 500 },
    2,
  );
  expect(placed.map(({ window: { id }, left, right }) => [id, left, right])).toEqual([
    ['edge', 0, 30],
  ]);
});
