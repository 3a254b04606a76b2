import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { verbsText } from '../../../../scripts/verbs-page.ts';
import { printExperiment } from '../print.ts';
import { readExperiment } from '../read.ts';
import { meaningOf } from '../testing/meaning.ts';
import { VERBS, VERB_OF } from './index.ts';

const VESSELS = `## Vessels
- flask: 100 mL round-bottom flask
- receiver: 100 mL round-bottom flask, tared
- extracts flask: 100 mL conical flask
- conical flask: 100 mL conical flask
- funnel: 125 mL separatory funnel
- beaker: 250 mL beaker
- vial: 10 mL vial
- dish: 50 mL dish
`;

function readOne(sentence: string) {
  const text = `# Trial\n\n${VESSELS}\n## Procedure\n\n1. Add ethanol 5 mL to the flask.\n2. ${sentence}.\n`;
  const experiment = readExperiment(text);
  const again = readExperiment(printExperiment(experiment));
  return {
    steps: experiment.steps.slice(1),
    again: again.steps.slice(1),
    diagnostics: experiment.diagnostics,
  };
}

const EXAMPLES = VERBS.flatMap((verb) =>
  verb.examples.map((example) => [example, verb.kind] as const),
);

test.each(EXAMPLES)('“%s” is read as %s', (example, kind) => {
  const { steps, again, diagnostics } = readOne(example);
  expect(steps.map((step) => step.verb)).toEqual([kind]);
  expect(diagnostics.filter(({ severity }) => severity !== 'note')).toEqual([]);
  expect(again.map(meaningOf)).toEqual(steps.map(meaningOf));
});

test('docs/verbs.md is current', () => {
  const page = readFileSync(new URL('../../../../docs/verbs.md', import.meta.url), 'utf8');
  expect(page).toBe(verbsText());
});

test('every kind of verb has its file in the list, and says what it does', () => {
  for (const [kind, verb] of Object.entries(VERB_OF)) {
    expect(verb.kind).toBe(kind);
    expect(VERBS).toContain(verb);
    expect(verb.about).toMatch(/\.$/);
    expect(verb.forms.length).toBeGreaterThan(0);
    expect(verb.examples.length).toBeGreaterThan(0);
  }
});
