import { expect, it } from 'vitest';
import { drawnWithDecimal } from './decimal-parts.ts';

const drawn = '<g aria-label="1.12 g"><path d="M1.5 2.5"/><text x="3.5">1.12 g</text></g>';

it('changes the words and no place', () => {
  expect(drawnWithDecimal(drawn, ',')).toBe(
    '<g aria-label="1,12 g"><path d="M1.5 2.5"/><text x="3.5">1,12 g</text></g>',
  );
  expect(drawnWithDecimal(drawn, '.')).toBe(drawn);
});
