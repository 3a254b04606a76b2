import { describe, expect, it } from 'vitest';
import { continueList, doubledNumber } from './continue-list.ts';

/** The text after Enter where the bar stands. */
function entered(written: string): string | undefined {
  const at = written.indexOf('|');
  const text = written.replace('|', '');
  const changes = continueList(text, at);
  return changes
    ?.toSorted((a, b) => b.from - a.from)
    .reduce((now, { from, to, insert }) => now.slice(0, from) + insert + now.slice(to), text);
}

describe('Enter in a list', () => {
  it.each([
    ['begins the next item', '1. Stir.|', '1. Stir.\n2. '],
    ['parts an item', '1. Stir. |Cool.', '1. Stir. \n2. Cool.'],
    [
      'moves the numbers after it',
      '1. A.|\n2. B.\n\n> so\n3. C.\n',
      '1. A.\n2. \n3. B.\n\n> so\n4. C.\n',
    ],
    ['leaves numbers that count otherwise', '1. A.|\n7. B.\n', '1. A.\n2. \n7. B.\n'],
    ['stops at the next section', '1. A.|\n## Notes\n2. B.', '1. A.\n2. \n## Notes\n2. B.'],
    ['goes on past a part', '1. A.|\n### Work-up\n2. B.', '1. A.\n2. \n### Work-up\n3. B.'],
    ['goes on with dashes', '- flask|', '- flask\n- '],
    ['ends the list in an empty item', '1. A.\n2. |', '1. A.\n'],
    ['is an ordinary key outside', 'Words|', undefined],
    ['is an ordinary key before the mark', '|1. A.', undefined],
  ])('%s', (_, before, after) => {
    expect(entered(before)).toBe(after);
  });
});

describe('a number written a second time', () => {
  it.each([
    ['2. 2.', 2],
    ['  12) 12)', 3],
    ['2. 3.', 0],
    ['2. 2 mL.', 0],
    ['2.', 0],
  ])('%s', (before, doubled) => {
    expect(doubledNumber(before)).toBe(doubled);
  });
});
