import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { schemaText } from '../../../scripts/schema.ts';
import { readExperiment } from './read.ts';
import { experimentSchema, schemaAgrees } from './schema.ts';
import { documents } from '../../../test/documents.ts';
import { treeOf } from './tree.ts';

test('the schema and the type say the same', () => {
  expect(schemaAgrees).toBe(true);
});

test('the committed JSON Schema is current', () => {
  const page = new URL('../../../docs/spec/experiment.schema.json', import.meta.url);
  expect(readFileSync(page, 'utf8')).toBe(schemaText());
});

test.each(documents())('the tree of %s fits it, before and after JSON', (_path, text) => {
  const tree = treeOf(readExperiment(text));
  const again: unknown = JSON.parse(JSON.stringify(tree));
  expect(again).toEqual(tree);
  const result = experimentSchema.safeParse(again);
  expect(result.error?.issues ?? []).toEqual([]);
});

test('what is no tree is refused', () => {
  const tree = treeOf(readExperiment('# A\n\n## Procedure\n1. Stir the flask for 5 min.\n'));
  expect(experimentSchema.safeParse({ ...tree, colour: 'red' }).success).toBe(false);
  expect(experimentSchema.safeParse({ ...tree, steps: [{ id: '1' }] }).success).toBe(false);
});
