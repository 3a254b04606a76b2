import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { baselineOf } from './baseline.ts';
import { seededRandom } from '../../../quantity/random.ts';
import { bandsAt, evenly, noisy, randomBands } from './testing/curves.ts';
import { whittaker } from './whittaker.ts';

const x = evenly(400, 4000, 2);

const BACKGROUNDS: readonly (readonly [string, (percm: number) => number])[] = [
  ['none', () => 0],
  ['an offset', () => 0.2],
  ['a tilt', (p) => 0.05 + 6e-5 * (p - 400)],
  ['scatter that rises to high wavenumbers', (p) => 0.02 + 0.3 * (p / 4000) ** 2],
  ['scatter that rises more steeply', (p) => 0.02 + 0.4 * (p / 4000) ** 4],
  ['a hump', (p) => 0.2 - 0.15 * ((p - 2200) / 1800) ** 2],
  ['an offset below nought', (p) => -0.05 + 1e-5 * p],
];

describe('a slow background under bands', () => {
  it.each(BACKGROUNDS)('%s', (_what, background) => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const { bands } = randomBands(seed);
      const narrow = bandsAt(
        x,
        bands.filter((_, i) => i % 2 === 0),
      );
      const y = noisy(
        narrow.map((each, i) => each + background(x[i]!)),
        0.001,
        seed,
      );
      const baseline = baselineOf(x, y);
      const errors = baseline.map((each, i) => Math.abs(each - background(x[i]!))).sort();
      expect(errors[Math.floor(0.5 * errors.length)]).toBeLessThan(0.006);
      expect(errors[Math.floor(0.95 * errors.length)]).toBeLessThan(0.05);
    }
  });
  it.each([
    ['O–H of an alcohol', 3340, 300],
    ['a broader O–H', 3300, 400],
    ['the shelf of an acid', 3000, 800],
  ])('leaves %s its height', (_what, position, width) => {
    const y = bandsAt(x, [
      { position, width, height: 0.6 },
      { position: 1050, width: 30, height: 0.9 },
      { position: 1450, width: 40, height: 0.4 },
    ]).map((each, i) => each + 0.03 + 2e-5 * x[i]!);
    const baseline = baselineOf(x, y);
    const at = Math.round((position - 400) / 2);
    expect((y[at]! - baseline[at]!) / 0.6).toBeGreaterThan(0.95);
    expect((y[at]! - baseline[at]!) / 0.6).toBeLessThan(1.05);
  });
  it('stays under a crowd of bands', () => {
    for (let seed = 1; seed <= 10; seed++) {
      const { uniform } = seededRandom(seed);
      const crowd = Array.from({ length: 28 }, () => ({
        position: 600 + 900 * uniform(),
        width: 15 + 25 * uniform(),
        height: 0.05 + 0.6 * uniform(),
      }));
      const y = noisy(bandsAt(x, crowd), 0.001, seed);
      const highest = Math.max(...baselineOf(x, y).map(Math.abs));
      expect(highest).toBeLessThan(0.02);
    }
  });
});

describe('what always holds', () => {
  it('moves and grows with the curve', () => {
    const { bands } = randomBands(7);
    const y = bandsAt(x, bands);
    const plain = baselineOf(x, y);
    fc.assert(
      fc.property(
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.double({ min: 0.1, max: 10, noNaN: true }),
        (offset, factor) => {
          const moved = baselineOf(
            x,
            y.map((each) => factor * each + offset),
          );
          for (let i = 0; i < x.length; i += 97)
            expect(moved[i]).toBeCloseTo(factor * plain[i]! + offset, 4);
        },
      ),
      { numRuns: 20 },
    );
  });
  it('a straight line is its own baseline', () => {
    const line = x.map((each) => 0.3 - 4e-5 * each);
    const baseline = baselineOf(x, line);
    for (let i = 0; i < x.length; i += 50) expect(baseline[i]).toBeCloseTo(line[i]!, 3);
  });
});

describe('the smoother beneath', () => {
  it('solves its equations: the matrix times the answer is the right side', () => {
    const y = Float64Array.from([1, 3, 2, 5, 4, 4, 6, 9]);
    const weights = Float64Array.from([1, 0.5, 1, 0, 0, 1, 2, 1]);
    const stiffness = 7;
    const z = whittaker(y, weights, stiffness);
    const bend = (i: number): number =>
      i < 1 || i + 1 >= z.length ? 0 : z[i - 1]! - 2 * z[i]! + z[i + 1]!;
    for (let i = 0; i < y.length; i++) {
      const penalty = stiffness * (bend(i - 1) - 2 * bend(i) + bend(i + 1));
      expect(weights[i]! * (z[i]! - y[i]!) + penalty).toBeCloseTo(0, 9);
    }
  });
});
