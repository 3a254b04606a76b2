import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import { printExperiment, printStep } from './print.ts';
import { readExperiment } from './read.ts';
import { meaningOf } from './testing/meaning.ts';

const root = new URL('../../../', import.meta.url);

function documents(): [string, string][] {
  const examples = readdirSync(new URL('examples/', root))
    .map((name) => `examples/${name}/experiment.md`)
    .filter((path) => existsSync(new URL(path, root)));
  const published = readdirSync(new URL('test/published/yields/', root))
    .filter((name) => name.endsWith('.md'))
    .map((name) => `test/published/yields/${name}`);
  return [...examples, ...published].map((path) => [path, readFileSync(new URL(path, root), 'utf8')]);
}

test.each(documents())('%s means the same when it is read as printed', (_path, text) => {
  const before = readExperiment(text);
  const printed = printExperiment(before);
  const after = readExperiment(printed);
  const lines = before.steps.map((step, i) => ({
    text: step.text,
    printed: printStep(step),
    meaning: meaningOf(before.steps[i]!),
  }));
  const again = before.steps.map((step, i) => ({
    text: step.text,
    printed: after.steps[i] && printStep(after.steps[i]),
    meaning: after.steps[i] && meaningOf(after.steps[i]),
  }));
  expect(again).toEqual(lines);
  expect(after.steps.length).toBe(before.steps.length);
  expect(after.vessels.map(({ id, shape, capacity_mL, tared }) => ({ id: id.toLowerCase(), shape, capacity_mL, tared }))).toEqual(
    before.vessels.map(({ id, shape, capacity_mL, tared }) => ({ id: id.toLowerCase(), shape, capacity_mL, tared })),
  );
  expect(after.reactions.map(({ id, reactants, products, balance, conversion }) => ({ id, reactants, products, balance, conversion }))).toEqual(
    before.reactions.map(({ id, reactants, products, balance, conversion }) => ({ id, reactants, products, balance, conversion })),
  );
  expect(after.products.map(({ substance }) => substance)).toEqual(before.products.map(({ substance }) => substance));
  expect(after.title).toBe(before.title);
  expect(after.header).toEqual(before.header);
});
