import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { axisNumber, roundStep, ticksIn } from './ticks.ts';

const texts = (...args: Parameters<typeof ticksIn>) => ticksIn(...args).map(({ text }) => text);

describe('ticks', () => {
  test.each([
    [0, 100, 6, ['0', '20', '40', '60', '80', '100']],
    [0, 1.24, 7, ['0.0', '0.2', '0.4', '0.6', '0.8', '1.0', '1.2']],
    [1705, 1755, 5, ['1710', '1720', '1730', '1740', '1750']],
    [-0.02, 0.05, 4, ['−0.02', '0.00', '0.02', '0.04']],
    [5, 5, 4, []],
  ])('%d to %d, at most %d', (low, high, most, expected) => {
    expect(texts(low, high, most)).toEqual(expected);
  });

  test('take the decimal sign of the laboratory', () => {
    expect(texts(0, 1, 3, ',')).toEqual(['0,0', '0,5', '1,0']);
    expect(axisNumber(-0.0001, 2, ',')).toBe('0,00');
  });

  test('are round, evenly spaced, within the range, and no more than asked for', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -5000, max: 5000, noNaN: true }),
        fc.double({ min: 0.01, max: 5000, noNaN: true }),
        fc.integer({ min: 2, max: 20 }),
        (low, span, most) => {
          const ticks = ticksIn(low, low + span, most).map(({ value }) => value);
          const step = roundStep(span, most);
          expect([1, 2, 5, 10]).toContain(
            Math.round(step / 10 ** Math.floor(Math.log10(step * 1.0001))),
          );
          expect(ticks.length).toBeLessThanOrEqual(most + 1);
          ticks.forEach((value, i) => {
            expect(value).toBeGreaterThanOrEqual(low - step * 1e-6);
            expect(value).toBeLessThanOrEqual(low + span + step * 1e-6);
            if (i > 0) expect(value - ticks[i - 1]!).toBeCloseTo(step, 6);
          });
        },
      ),
    );
  });
});
