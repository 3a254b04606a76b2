import { expect, test } from 'vitest';
import { built, readDraft } from './draft.ts';

test('numbers are read with either sign, and a word is a problem', () => {
  const reader = readDraft({ a: '1,5', b: ' −2.5 ', c: 'warm', d: '' }, ',');
  expect([reader.number('a'), reader.number('b'), reader.number('c'), reader.number('d')]).toEqual([
    1.5,
    -2.5,
    undefined,
    undefined,
  ]);
  expect(reader.problems).toEqual({ c: 'A number is expected here.' });
});

test('what is needed and what is out of bounds is said by its field, in rows too', () => {
  const reader = readDraft({ peaks: [{ area: '3' }, { area: '-1' }, {}] }, '.');
  const areas = reader.rows('peaks').map((row) => row.need('area', 0, 100));
  expect(areas).toEqual([3, -1, 0]);
  expect(reader.problems).toEqual({
    'peaks.1.area': 'Between 0 and 100.',
    'peaks.2.area': 'This is needed.',
  });
  expect(built(reader, {})).toEqual({ ok: false, problems: reader.problems });
});

test('what was left empty is left out', () => {
  const reader = readDraft({}, '.');
  const entered = { technique: 'density', a: undefined, b: [{ c: undefined, d: 1 }] };
  expect(built(reader, entered)).toEqual({
    ok: true,
    entered: { technique: 'density', b: [{ d: 1 }] },
  });
});
