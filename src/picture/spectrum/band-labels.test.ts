import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { placeLabels } from './band-labels.ts';
import type { LabelWish } from './band-labels.ts';
import { spread } from './spread.ts';

describe('spreading', () => {
  test.each([
    { of: 'nothing in the way', wanted: [10, 50], gaps: [0, 20], places: [10, 50] },
    { of: 'two too near', wanted: [50, 54], gaps: [0, 20], places: [42, 62] },
    { of: 'three on one place', wanted: [50, 50, 50], gaps: [0, 10, 10], places: [40, 50, 60] },
    { of: 'the left edge', wanted: [-5, 1], gaps: [0, 10], places: [0, 10] },
    { of: 'the right edge', wanted: [95, 99], gaps: [0, 10], places: [90, 100] },
  ])('$of', ({ wanted, gaps, places }) => {
    expect(spread(wanted, gaps, 0, 100)).toEqual(places);
  });

  test('no single place can be nearer to where it wants to be', () => {
    const wishes = fc.array(fc.integer({ min: 0, max: 300 }), { minLength: 1, maxLength: 9 });
    fc.assert(
      fc.property(wishes, fc.integer({ min: 1, max: 40 }), (all, gap) => {
        const wanted = [...all].sort((a, b) => a - b);
        const places = spread(
          wanted,
          wanted.map(() => gap),
          -1000,
          2000,
        );
        const away = (of: readonly number[]) =>
          of.reduce((sum, at, i) => sum + (at - wanted[i]!) ** 2, 0);
        const keeps = (of: readonly number[]) =>
          of.every((at, i) => i === 0 || at - of[i - 1]! >= gap - 1e-9);
        expect(keeps(places)).toBe(true);
        for (const by of [-0.5, 0.5])
          for (let from = 0; from < places.length; from++)
            for (let to = from; to < places.length; to++) {
              const other = places.map((at, i) => (i >= from && i <= to ? at + by : at));
              if (keeps(other)) expect(away(other)).toBeGreaterThanOrEqual(away(places) - 1e-6);
            }
      }),
    );
  });
});

const anyWish = fc.record({
  x: fc.double({ min: 40, max: 1100, noNaN: true }),
  position: fc.integer({ min: 400, max: 4000 }),
  rank: fc.double({ min: 0, max: 2, noNaN: true }),
  selected: fc.boolean(),
});

const wishesOf = (
  all: readonly { x: number; position: number; rank: number; selected: boolean }[],
): LabelWish[] =>
  all.map(({ position, ...rest }, i) => ({ id: `b${i}`, text: String(position), ...rest }));

describe('labels', () => {
  test('never overlap, nor does a leader run through one, nor do they leave the plot', () => {
    fc.assert(
      fc.property(
        fc.array(anyWish, { maxLength: 120 }),
        fc.integer({ min: 200, max: 1060 }),
        (all, width) => {
          const [left, right] = [40, 40 + width];
          const wishes = wishesOf(all.filter(({ x }) => x <= right));
          const { placed, left: out } = placeLabels(wishes, left, right);
          expect(placed.length + out).toBe(wishes.length);
          placed.forEach((a, i) => {
            expect(a.middle - a.width / 2).toBeGreaterThanOrEqual(left - 1e-6);
            expect(a.middle + a.width / 2).toBeLessThanOrEqual(right + 1e-6);
            for (const b of placed.slice(i + 1)) {
              expect(b.x).toBeGreaterThanOrEqual(a.x);
              const apart = b.middle - a.middle;
              if (a.tier === b.tier) expect(apart).toBeGreaterThanOrEqual((a.width + b.width) / 2);
              const near = a.tier < b.tier ? a : b;
              if (a.tier !== b.tier) expect(apart).toBeGreaterThan(near.width / 2);
            }
          });
        },
      ),
    );
  });

  test('where there is no room for all, the lowest go and the selected one stays', () => {
    const wishes = wishesOf(
      Array.from({ length: 60 }, (_, i) => ({
        x: 50 + i * 3,
        position: 1000 + i,
        rank: i,
        selected: i === 0,
      })),
    );
    const { placed, left } = placeLabels(wishes, 40, 240);
    expect(left).toBeGreaterThan(0);
    const kept = placed.map(({ rank }) => rank);
    expect(kept).toContain(0);
    expect(Math.min(...kept.filter((rank) => rank > 0))).toBe(60 - (placed.length - 1));
  });
});
