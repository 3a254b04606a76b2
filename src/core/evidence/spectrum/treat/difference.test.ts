import { describe, expect, it } from 'vitest';
import { differenceOf } from './difference.ts';
import { bandsAt, evenly, noisy } from './testing/curves.ts';

const x = evenly(600, 4000, 2);
const ketone = bandsAt(x, [
  { position: 1715, width: 22, height: 1 },
  { position: 1220, width: 25, height: 0.4 },
  { position: 2940, width: 30, height: 0.5 },
]);
const alcohol = bandsAt(x, [
  { position: 3340, width: 260, height: 0.7 },
  { position: 1060, width: 30, height: 0.8 },
  { position: 2935, width: 34, height: 0.6 },
]);

function mixture(share: number, sigma: number, seed: number): Float64Array {
  const clean = ketone.map(
    (each, i) => share * each + (1 - share) * alcohol[i]! + 0.02 + 1e-5 * x[i]!,
  );
  return noisy(clean, sigma, seed);
}

describe('one spectrum taken off another', () => {
  it.each([0, 0.02, 0.1, 0.5, 1])('gives %d of a mixture back, within its uncertainty', (share) => {
    let [inside, draws] = [0, 0];
    for (let seed = 1; seed <= 40; seed++) {
      const got = differenceOf(
        { x, y: mixture(share, 0.002, seed) },
        { x, y: ketone },
        { others: [{ x, y: alcohol }] },
      )!;
      expect(Math.abs(got.factor - share)).toBeLessThan(5 * got.u);
      expect(got.others[0]).toBeCloseTo(1 - share, 2);
      if (Math.abs(got.factor - share) <= 2 * got.u) inside++;
      draws++;
    }
    expect(inside / draws).toBeGreaterThan(0.85);
  });
  it('needs no other spectrum where only one of them absorbs', () => {
    const got = differenceOf(
      { x, y: mixture(0.1, 0.001, 3) },
      { x, y: ketone },
      { regions: [[1660, 1780]] },
    )!;
    expect(Math.abs(got.factor - 0.1)).toBeLessThan(4 * got.u);
    const at = x.indexOf(1714);
    expect(Math.abs(got.residual[at]!)).toBeLessThan(0.06);
  });
  it('takes a given factor and says no uncertainty', () => {
    const got = differenceOf({ x, y: ketone }, { x, y: ketone }, { factor: 1 })!;
    expect(got.u).toBe(0);
    expect(Math.max(...got.residual.map(Math.abs))).toBe(0);
  });
  it('minds another grid', () => {
    const coarse = evenly(500, 4100, 4);
    const other = bandsAt(coarse, [{ position: 1715, width: 22, height: 1 }]);
    const alone = bandsAt(x, [{ position: 1715, width: 22, height: 0.3 }]);
    const got = differenceOf({ x, y: alone }, { x: coarse, y: other })!;
    expect(got.factor).toBeCloseTo(0.3, 2);
  });
  it('leaves out what it is told to', () => {
    const spoilt = mixture(0.3, 0, 1).map((each, i) => (Math.abs(x[i]! - 2350) < 20 ? 3 : each));
    const others = [{ x, y: alcohol }];
    const got = differenceOf(
      { x, y: spoilt },
      { x, y: ketone },
      { others, without: [[2320, 2380]] },
    )!;
    expect(got.factor).toBeCloseTo(0.3, 6);
  });
  it('says nothing of curves that do not overlap', () => {
    const far = evenly(5000, 6000, 2);
    expect(differenceOf({ x, y: ketone }, { x: far, y: far })).toBeUndefined();
  });
});
