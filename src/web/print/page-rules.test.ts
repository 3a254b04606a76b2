import { expect, it } from 'vitest';
import { footOf, pageRules } from './page-rules.ts';

const of = {
  title: 'Benzoic acid',
  number: 4,
  name: null,
  document: '0123456789abcdef'.repeat(4),
  kept: true,
};

it('says at the foot which version it is, or that it is none yet', () => {
  expect(footOf(of)).toBe('Benzoic acid · version 4 (0123456789ab) · Weighboat');
  expect(footOf({ ...of, name: 'Trial' })).toContain('version 4 “Trial” (0123456789ab)');
  expect(footOf({ ...of, kept: false })).toContain('changed after version 4, not kept');
});

it('takes the paper of the laboratory, and no quote of a title ends the words', () => {
  const rules = pageRules({ size: 'letter', foot: 'The "best" \\ ester\n}' });
  expect(rules).toContain('size: letter landscape');
  expect(rules).toContain('content: "The \\"best\\" \\\\ ester }"');
});
