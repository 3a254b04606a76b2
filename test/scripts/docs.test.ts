import { describe, expect, it } from 'vitest';
import { relativeLinksOf, snippetsOf } from '../../scripts/docs.ts';

describe('reading our own pages', () => {
  it('finds links that are files, and no others', () => {
    const text =
      'A [page](spec/x.md#part), [web](https://example.org), [here](#top), `[code](no.md)`\n\n```\n[block](no.md)\n```\n![p](a.png "t")';
    expect(relativeLinksOf(text)).toEqual([
      { line: 1, target: 'spec/x.md#part' },
      { line: 6, target: 'a.png' },
    ]);
  });

  it('finds fenced blocks with their language and line', () => {
    expect(snippetsOf('a\n```weighboat\n# T\n\nx\n```\n````text\n```\n````\n')).toEqual([
      { line: 2, language: 'weighboat', text: '# T\n\nx' },
      { line: 7, language: 'text', text: '```' },
    ]);
  });
});
