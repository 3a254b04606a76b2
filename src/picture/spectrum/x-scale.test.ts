import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { AXES } from './axis.ts';
import type { AxisKind } from './spectrum-view.ts';
import { stretchOf, valuesIn, xScale } from './x-scale.ts';
import type { ScaleKind } from './x-scale.ts';
import { xTicks } from './x-ticks.ts';

const KINDS = Object.keys(AXES) as AxisKind[];
const anyScale = fc.tuple(fc.constantFrom(...KINDS), fc.constantFrom<ScaleKind[]>('even', 'split'));

describe('scales', () => {
  test('give back the value of every place', () => {
    fc.assert(
      fc.property(anyScale, fc.double({ min: -10, max: 5000, noNaN: true }), ([kind, how], x) => {
        const scale = xScale(AXES[kind], how);
        expect(scale.valueAt(scale.placeOf(x))).toBeCloseTo(x, 8);
      }),
    );
  });

  test('wavenumber and shift fall to the right, mass and time rise', () => {
    const rises = KINDS.filter((kind) => {
      const { placeOf } = xScale(AXES[kind], 'split');
      return placeOf(2500) > placeOf(1500);
    });
    expect(rises).toEqual(['massToCharge', 'time']);
  });

  test('below 2000 a wavenumber takes twice the room that it takes above', () => {
    const { placeOf } = xScale(AXES.wavenumber, 'split');
    const room = (a: number, b: number) => Math.abs(placeOf(a) - placeOf(b));
    expect(room(1000, 1100)).toBeCloseTo(2 * room(3000, 3100), 9);
  });

  test('a stretch is the range again', () => {
    const scale = xScale(AXES.wavenumber, 'split');
    const stretch = stretchOf(scale, { low: 400, high: 4000 });
    expect(valuesIn(scale, stretch)).toEqual([400, 4000]);
  });

  test('each side of the split has ticks of its own, none twice', () => {
    const scale = xScale(AXES.wavenumber, 'split');
    const stretch = stretchOf(scale, { low: 400, high: 4000 });
    const xOf = (x: number) => scale.placeOf(x) - stretch.from;
    const major = xTicks(scale, stretch, xOf, 15, '.').filter(({ minor }) => !minor);
    const values = major.map(({ value }) => value).sort((a, b) => b - a);
    expect(values.slice(0, 6)).toEqual([4000, 3500, 3000, 2500, 2000, 1800]);
    expect(new Set(values).size).toBe(values.length);
  });
});
