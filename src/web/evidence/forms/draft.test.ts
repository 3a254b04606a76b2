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

test('a sign before a number and a number that begins with its decimal sign are read', () => {
  const reader = readDraft({ a: '+12,4', b: '\u2212,5', c: '.25', d: '++3' }, ',');
  const read = ['a', 'b', 'c', 'd'].map((field) => reader.number(field));
  expect(read).toEqual([12.4, -0.5, 0.25, undefined]);
});

test('a bound on one side is said as one, in the sign of the laboratory', () => {
  const reader = readDraft({ a: '-3', b: '9', c: '7' }, ',');
  reader.number('a', -2.5);
  reader.number('b', -Infinity, 8);
  reader.number('c', -1, 1.5);
  expect(reader.problems).toEqual({
    a: 'At least \u22122,5.',
    b: 'At most 8.',
    c: 'Between \u22121 and 1,5.',
  });
});
