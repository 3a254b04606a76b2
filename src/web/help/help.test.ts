import { describe, expect, it } from 'vitest';
import { readExperiment } from '../../core/experiment/read.ts';
import { VERBS } from '../../core/experiment/verbs/index.ts';
import { EXAMPLE, PARTS } from './example.ts';
import { found, operationGroups } from './operations.ts';

const VESSELS =
  'flask, beaker, funnel, extracts flask, conical flask, receiver, dish, ketone flask, filter'
    .split(', ')
    .map((name) => `- ${name}: 250 mL ${name.replace('funnel', 'separatory funnel')}`)
    .join('\n');

/** The operation that a sentence is read as, alone in a procedure. */
function readAs(sentence: string): string | undefined {
  const text = `# T\n\n## Vessels\n${VESSELS}\n\n## Procedure\n1. ${sentence}\n`;
  return readExperiment(text).steps[0]?.verb;
}

describe('the operations', () => {
  it('are all there, once, in either terms', () => {
    for (const terms of ['uk', 'us'] as const) {
      const kinds = operationGroups(terms).flatMap((group) =>
        group.operations.map(({ kind }) => kind),
      );
      expect([...kinds].sort()).toEqual([...new Set(VERBS.map(({ kind }) => kind))].sort());
    }
  });

  it('are found by any word of theirs', () => {
    const groups = operationGroups('uk');
    const kinds = (question: string) =>
      found(groups, question).flatMap(({ operations }) => operations.map(({ kind }) => kind));
    expect(kinds('dean trap')).toContain('reflux');
    expect(kinds('SHAKE portions')).toContain('extract');
    expect(kinds('')).toHaveLength(groups.flatMap((group) => group.operations).length);
    expect(kinds('nothing of the kind')).toEqual([]);
  });

  it('have examples that are read as that operation, in the terms that they are shown in', () => {
    for (const terms of ['uk', 'us'] as const)
      for (const { kind, ways } of operationGroups(terms).flatMap((group) => group.operations))
        for (const example of ways.flatMap((way) => way.examples))
          expect([example, readAs(example)]).toEqual([example, kind]);
  });
});

describe('the example', () => {
  it('is read without a remark', () => {
    expect(readExperiment(EXAMPLE).diagnostics).toEqual([]);
  });

  it('shows parts that are sections of a document', () => {
    const headings = PARTS.map(({ heading }) => heading).filter((each) => each !== '## Substances');
    for (const heading of headings.slice(1)) expect(EXAMPLE).toContain(heading);
  });
});
