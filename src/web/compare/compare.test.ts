import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Version } from '../../wire/experiment.ts';
import { chosen } from './choice.ts';
import { editsOf } from './edits.ts';
import { textBlocks } from './text-blocks.ts';

const word = fc.constantFrom('add', 'stir', 'the', 'flask', '10', 'mL');
const words = fc.array(word, { maxLength: 30 });
const lines = fc.array(fc.constantFrom('', 'a b', 'a c', 'd'), { maxLength: 30 });

describe('what changed from one list to another', () => {
  it('gives back both, whatever they are', () => {
    fc.assert(
      fc.property(words, words, (from, to) => {
        const edits = editsOf(from, to);
        const side = (other: 'in' | 'out') =>
          edits.filter(({ kind }) => kind !== other).flatMap(({ items }) => items);
        expect(side('in')).toEqual(from);
        expect(side('out')).toEqual(to);
      }),
    );
  });

  it('is as short as it can be', () => {
    fc.assert(
      fc.property(words, words, (from, to) => {
        const common = editsOf(from, to)
          .filter(({ kind }) => kind === 'same')
          .reduce((sum, { items }) => sum + items.length, 0);
        expect(common).toBe(longestCommon(from, to));
      }),
    );
  });

  it('takes two long texts with nothing in common in one piece', () => {
    const many = (of: string) => Array.from({ length: 4000 }, (_, i) => `${of}${i}`);
    expect(editsOf(many('a'), many('b')).map(({ kind }) => kind)).toEqual(['out', 'in']);
  });
});

/** By the table of all beginnings: slow and plain. */
function longestCommon(from: readonly string[], to: readonly string[]): number {
  const table = Array.from({ length: from.length + 1 }, () =>
    Array.from({ length: to.length + 1 }, () => 0),
  );
  for (let i = 1; i <= from.length; i++)
    for (let j = 1; j <= to.length; j++)
      table[i]![j] =
        from[i - 1] === to[j - 1]
          ? table[i - 1]![j - 1]! + 1
          : Math.max(table[i - 1]![j]!, table[i]![j - 1]!);
  return table[from.length]![to.length]!;
}

describe('both texts as one', () => {
  it('gives back the newer exactly and the older letter for letter', () => {
    fc.assert(
      fc.property(lines, lines, (a, b) => {
        const [from, to] = [a.join('\n'), b.join('\n')];
        const side = (other: 'removed' | 'added') =>
          textBlocks(from, to)
            .flatMap((block) =>
              block.kind === 'changed'
                ? block.runs.filter(({ kind }) => kind !== other).map(({ text }) => text)
                : [block.text],
            )
            .join('');
        expect(side('removed')).toBe(to);
        // Of the older text, blanks beside words that stayed are those of the newer.
        const inked = (text: string) => text.replace(/\s+/g, '');
        expect(inked(side('added'))).toBe(inked(from));
      }),
    );
  });

  it('folds what is far from a change', () => {
    const from = Array.from({ length: 9 }, (_, i) => `${i}\n`).join('');
    const blocks = textBlocks(from, from.replace('4', 'four'));
    expect(blocks.map(({ kind }) => kind)).toEqual(['folded', 'same', 'changed', 'same', 'folded']);
  });
});

describe('which versions', () => {
  const versions = [5, 4, 3, 2, 1].map((number): Version => ({
    number,
    document: '',
    savedAt: '',
    savedBy: '',
    name: number === 2 ? 'handed out' : null,
  }));
  it.each([
    [
      { from: '3', to: '4' },
      { from: 3, to: 4 },
    ],
    [
      { from: null, to: null },
      { from: 2, to: 5 },
    ],
    [
      { from: null, to: '2' },
      { from: 1, to: 2 },
    ],
    [
      { from: 'x', to: '99' },
      { from: 2, to: 5 },
    ],
    [
      { from: null, to: '1' },
      { from: 1, to: 1 },
    ],
  ])('%o gives %o', (asked, expected) => {
    expect(chosen(versions, asked)).toEqual(expected);
  });
});
