import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Draft } from '../draft.ts';
import { lanesIn, movedTo, nextAim, pointIn, pointText, pointsIn, setAt } from './points.ts';
import type { Aim, Point } from './points.ts';

const coordinate = fc.integer({ min: 0, max: 40_000 }).map((tenths) => tenths / 10);
const point: fc.Arbitrary<Point> = fc.tuple(coordinate, coordinate);
const aim: fc.Arbitrary<Aim> = fc.constantFrom<Aim[]>('startA', 'startB', 'frontA', 'frontB', 0, 1);

const EMPTY: Draft = { lanes: [{ what: 'a' }, { what: 'b', spots: [] }] };
const changed = (draft: Draft, [field, value]: readonly [string, Draft[string]]): Draft => ({
  ...draft,
  [field]: value,
});

test('a point reads back as it was written', () => {
  fc.assert(
    fc.property(point, (one) => {
      expect(pointIn(pointText(one))).toEqual(one);
    }),
  );
  expect([pointIn(undefined), pointIn('12'), pointIn('a b')]).toEqual([
    undefined,
    undefined,
    undefined,
  ]);
});

test('every spot has an id of its own, moves alone and is taken out alone', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(aim, point), { minLength: 1, maxLength: 12 }),
      point,
      (taps, to) => {
        const draft = taps.reduce(
          (held, [one, at]) => changed(held, setAt(held, one, at).change),
          EMPTY,
        );
        const points = pointsIn(draft);
        expect(new Set(points.map(({ id }) => id)).size).toBe(points.length);
        const { id } = points.at(-1)!;
        const moved = pointsIn(changed(draft, movedTo(draft, id, to)));
        expect(moved.map((one) => (one.id === id ? { ...one, point: to } : one))).toEqual(moved);
        expect(moved.filter((one) => one.id !== id)).toEqual(points.filter((one) => one.id !== id));
        const rest = pointsIn(changed(draft, movedTo(draft, id, undefined)));
        expect(rest).toHaveLength(points.length - 1);
      },
    ),
  );
});

test('what else a lane and a spot hold stays', () => {
  const draft: Draft = {
    lanes: [{ what: 'a', spots: [{ id: 'spot4', point: '1 2', intensity: 'faint' }] }],
  };
  const after = changed(draft, movedTo(draft, 'spot4', [3, 4]));
  expect(lanesIn(after)).toEqual([
    { what: 'a', spots: [{ id: 'spot4', point: '3 4', intensity: 'faint' }] },
  ]);
  expect(setAt(draft, 0, [5, 6]).id).toBe('spot5');
});

test('the next tap goes to what is still open, then to the first lane', () => {
  expect(nextAim({ ...EMPTY }, 'startA')).toBe('startB');
  expect(nextAim({ ...EMPTY, startA: '1 1', frontA: '2 2' }, 'startA')).toBe('startB');
  expect(nextAim({ ...EMPTY, startA: '1 1', startB: '9 1' }, 'startB')).toBe('frontA');
  expect(nextAim({ ...EMPTY, startA: '1 1', startB: '9 1', frontA: '5 5' }, 'frontA')).toBe(0);
  expect(nextAim(EMPTY, 1)).toBe(1);
});
