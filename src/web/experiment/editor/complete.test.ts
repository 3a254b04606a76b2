import { CompletionContext } from '@codemirror/autocomplete';
import { EditorState } from '@codemirror/state';
import { describe, expect, it } from 'vitest';
import { completions } from './complete.ts';

const HEAD = '# Trial\n\n## Vessels\n- flask: 50 mL flask\n\n## Procedure\n1. ';

function offered(sentence: string, explicit = false): string[] {
  const doc = HEAD + sentence;
  const context = new CompletionContext(EditorState.create({ doc }), doc.length, explicit);
  return (completions(context)?.options ?? []).map(({ label }) => label);
}

describe('what is offered', () => {
  it.each(['Wash with ethanol', 'Add ether', 'Wash with Ethyl acetate', 'Add hexane'])(
    'nothing for a word that is there in full: %s',
    (sentence) => {
      expect(offered(sentence)).toEqual([]);
    },
  );

  it('what goes on from it where somebody asks', () => {
    expect(offered('Wash with ethyl', true).length).toBeGreaterThan(0);
  });

  it('the word that is begun', () => {
    expect(offered('Add ethano')).toContain('ethanol');
    expect(offered('Sti').some((label) => label.startsWith('Stir'))).toBe(true);
  });
});
