import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { normalise } from './normalise.ts';
import { evenGrid, resample } from './resample.ts';
import { bandsAt, evenly } from './testing/curves.ts';

const values = fc.array(fc.double({ min: -2, max: 2, noNaN: true }), {
  minLength: 4,
  maxLength: 120,
});

function area(x: Float64Array, y: Float64Array): number {
  let sum = 0;
  for (let i = 1; i < x.length; i++) sum += ((y[i]! + y[i - 1]!) / 2) * (x[i]! - x[i - 1]!);
  return sum;
}

describe('another grid', () => {
  it('its own grid gives the curve back', () => {
    fc.assert(
      fc.property(values, (all) => {
        const y = Float64Array.from(all);
        const x = evenly(400, 400 + 3 * (y.length - 1), 3);
        // Compared as numbers: 0 and −0 are one
        expect(resample(x, y, x).every((each, i) => each === y[i])).toBe(true);
      }),
    );
  });
  it('stays between the lowest and the highest value', () => {
    fc.assert(
      fc.property(values, fc.double({ min: 0.3, max: 20, noNaN: true }), (all, step) => {
        const y = Float64Array.from(all);
        const x = evenly(400, 400 + 3 * (y.length - 1), 3);
        const [low, high] = [Math.min(...y) - 1e-9, Math.max(...y) + 1e-9];
        for (const each of resample(x, y, evenGrid(x[0]!, x.at(-1)!, step)))
          expect(each >= low && each <= high).toBe(true);
      }),
    );
  });
  it('keeps a straight line, finer and coarser', () => {
    const x = evenly(400, 4000, 2);
    const line = x.map((each) => 1 + 0.01 * each);
    for (const step of [0.7, 2, 5, 16]) {
      const grid = evenGrid(500, 3900, step);
      const got = resample(x, line, grid);
      grid.forEach((each, i) => expect(got[i]).toBeCloseTo(1 + 0.01 * each, 6));
    }
  });
  it('keeps the area of a narrow band on a coarse grid', () => {
    const x = evenly(400, 4000, 1);
    const y = bandsAt(x, [{ position: 1715.5, width: 5, height: 1 }]);
    const grid = evenGrid(400, 4000, 16);
    expect(area(grid, resample(x, y, grid))).toBeCloseTo(area(x, y), 1);
  });
  it('knows nothing beyond the ends', () => {
    const x = evenly(600, 4000, 4);
    const got = resample(x, x, Float64Array.from([400, 600, 1000, 4000, 4100]));
    expect([...got].map(Number.isNaN)).toEqual([true, false, false, false, true]);
  });
});

describe('normalising', () => {
  const x = evenly(400, 4000, 4);
  const y = bandsAt(x, [{ position: 1700, width: 40, height: 0.5 }]);
  it.each([
    [{ kind: 'highest' } as const, 0.5, 3],
    // A Gaussian band: height · width · √(π / (4 ln 2))
    [{ kind: 'area' } as const, 0.5 * 40 * Math.sqrt(Math.PI / (4 * Math.LN2)), 3],
    [{ kind: 'band', from_percm: 1650, to_percm: 1750 } as const, 0.5, 3],
  ])('%j', (norm, size, digits) => {
    const got = normalise(x, y, norm);
    expect(got.size).toBeCloseTo(size, digits);
    expect(normalise(x, got.y, norm).size).toBeCloseTo(1, 9);
  });
  it('a vector of length 1', () => {
    const { y: got } = normalise(x, y, { kind: 'vector' });
    expect(got.reduce((sum, each) => sum + each * each, 0)).toBeCloseTo(1, 9);
  });
  it('leaves a curve of nought alone', () => {
    const nought = new Float64Array(x.length);
    expect(normalise(x, nought)).toEqual({ y: nought, size: 0 });
  });
});
