import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { blocksOf, inlineOf } from './markdown.ts';

describe('blocks of a handout', () => {
  it('joins lines, goes on with a list after a blank, and keeps remarks apart', () => {
    const text = [
      '# Title',
      'Course: Two',
      'Worked: singly',
      '',
      'One line',
      'goes on.',
      '',
      '1. Stir',
      'well.',
      '',
      '2. Cool.',
      '> Careful,',
      '> hot.',
      '',
      '3. Weigh.',
      '- a dash',
      '',
      'Words.',
    ].join('\n');
    expect(blocksOf(text)).toEqual([
      { kind: 'heading', level: 1, text: 'Title' },
      { kind: 'fact', key: 'Course', text: 'Two' },
      { kind: 'fact', key: 'Worked', text: 'singly' },
      { kind: 'paragraph', text: 'One line goes on.' },
      { kind: 'items', first: 1, items: ['Stir well.', 'Cool.'] },
      { kind: 'remark', text: 'Careful, hot.' },
      { kind: 'items', first: 3, items: ['Weigh.'] },
      { kind: 'items', first: null, items: ['a dash'] },
      { kind: 'paragraph', text: 'Words.' },
    ]);
  });

  it('loses no word', () => {
    const word = fc.stringMatching(/^[a-z]{1,6}$/);
    const mark = fc.constantFrom('', '# ', '## ', '> ', '- ', '1. ', '12. ', '  ', 'Key: ');
    const line = fc.tuple(mark, fc.array(word, { maxLength: 4 }));
    fc.assert(
      fc.property(fc.array(line), (lines) => {
        const text = lines.map(([lead, words]) => lead + words.join(' ')).join('\n');
        const set = blocksOf(text).flatMap((block) =>
          block.kind === 'items' ? block.items : [block.text],
        );
        const told = set.join(' ').match(/[a-z]+/g) ?? [];
        const written = lines.flatMap(([, words]) => words);
        expect(told.filter((each) => written.includes(each))).toEqual(written);
      }),
    );
  });
});

describe('words within a line', () => {
  it.each([
    ['plain', [['plain', 'plain']]],
    [
      'a **b** c',
      [
        ['plain', 'a '],
        ['strong', 'b'],
        ['plain', ' c'],
      ],
    ],
    [
      '*cis* and _trans_',
      [
        ['emphasis', 'cis'],
        ['plain', ' and '],
        ['emphasis', 'trans'],
      ],
    ],
    ['3 * 4 * 5', [['plain', '3 * 4 * 5']]],
    ['`code` [word](x.md)', [['plain', 'code word']]],
    ['a_b_c', [['plain', 'a_b_c']]],
  ])('%s', (text, pieces) => {
    expect(inlineOf(text).map((piece) => [piece.kind, piece.text])).toEqual(pieces);
  });
});
