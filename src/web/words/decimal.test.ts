import { expect, it } from 'vitest';
import { unbroken, withDecimal } from './decimal.ts';

it.each([
  ['Makes at most 1.14 g.', ',', 'Makes at most 1,14 g.'],
  ['Step 3. Then 0.5 mL.', ',', 'Step 3. Then 0,5 mL.'],
  ['1.14 g', '.', '1.14 g'],
] as const)('%s with %s', (text, sign, written) => {
  expect(withDecimal(text, sign)).toBe(written);
});

it('keeps a locant with its name and a number with its unit', () => {
  expect(unbroken('20 °C, 1 h 35 min, 3 mixtures')).toBe(
    '20\u00a0°C, 1\u00a0h 35\u00a0min, 3 mixtures',
  );
  expect(unbroken('4-methyl, 2-3 mL, o-nitro')).toBe('4-\u2060methyl, 2-3\u00a0mL, o-nitro');
});
