import { expect, it } from 'vitest';
import fc from 'fast-check';
import { piecesOf } from './pieces.ts';

it('parts a sentence at its numbers', () => {
  expect(piecesOf('Makes 1.14 g (10 mmol) of it.', ['10 mmol', '1.14 g', '7 L'])).toEqual([
    { text: 'Makes ' },
    { text: '1.14 g', number: 1 },
    { text: ' (' },
    { text: '10 mmol', number: 0 },
    { text: ') of it.' },
  ]);
});

it('loses no character', () => {
  fc.assert(
    fc.property(fc.string(), fc.array(fc.string({ maxLength: 3 })), (sentence, numbers) => {
      expect(
        piecesOf(sentence, numbers)
          .map(({ text }) => text)
          .join(''),
      ).toBe(sentence);
    }),
  );
});
