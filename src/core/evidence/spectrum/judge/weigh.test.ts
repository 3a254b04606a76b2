import fc from 'fast-check';
import { expect, it } from 'vitest';
import { missChance, moved, weighed } from './weigh.ts';

const share = fc.double({ min: 0.01, max: 0.99, noNaN: true });

it('shares add up to one and keep the order of equal priors', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: -200, max: 20, noNaN: true }), { minLength: 1, maxLength: 9 }),
      (all) => {
        const shares = [
          ...weighed(
            all.map((logLikelihood, i) => ({ name: String(i), prior: 1, logLikelihood })),
          ).values(),
        ];
        expect(shares.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 9);
        const best = all.indexOf(Math.max(...all));
        expect(shares[best]).toBeCloseTo(Math.max(...shares), 9);
      },
    ),
  );
});

it('a ratio of one moves nothing, a larger one moves up, and ratios multiply', () => {
  fc.assert(
    fc.property(share, fc.double({ min: 0.02, max: 50, noNaN: true }), (p, ratio) => {
      expect(moved(p, 1)).toBeCloseTo(p, 12);
      expect(moved(p, ratio) >= p).toBe(ratio >= 1);
      expect(moved(moved(p, ratio), 1 / ratio)).toBeCloseTo(p, 9);
    }),
  );
});

it('noise makes a band easier to miss', () => {
  fc.assert(
    fc.property(share, share, (one, other) => {
      const [low, high] = [Math.min(one, other), Math.max(one, other)];
      expect(missChance(0.02, 0.3, 2, high)).toBeGreaterThanOrEqual(missChance(0.02, 0.3, 2, low));
    }),
  );
});
