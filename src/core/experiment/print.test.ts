import { expect, test } from 'vitest';
import { printExperiment } from './print.ts';
import { readExperiment } from './read.ts';
import { documents } from '../../../test/documents.ts';
import { meaningOf } from './testing/meaning.ts';

test.each(documents())('%s means the same when it is read as printed', (_path, text) => {
  const before = readExperiment(text);
  const printed = printExperiment(before);
  const after = readExperiment(printed);
  const lines = before.steps.map((step) => ({
    text: step.text,
    meaning: meaningOf(step),
  }));
  const again = before.steps.map((step, i) => ({
    text: step.text,
    meaning: after.steps[i] && meaningOf(after.steps[i]),
  }));
  expect(again).toEqual(lines);
  expect(after.steps.length).toBe(before.steps.length);
  // What was printed once is standard wording: every sentence of it is one step with nothing unexplained
  expect(after.diagnostics.filter(({ code }) => code.endsWith('not-understood'))).toEqual([]);
  expect(
    after.vessels.map(({ id, shape, capacity_mL, tared }) => ({
      id: id.toLowerCase(),
      shape,
      capacity_mL,
      tared,
    })),
  ).toEqual(
    before.vessels.map(({ id, shape, capacity_mL, tared }) => ({
      id: id.toLowerCase(),
      shape,
      capacity_mL,
      tared,
    })),
  );
  expect(
    after.reactions.map(({ id, reactants, products, balance, conversion }) => ({
      id,
      reactants,
      products,
      balance,
      conversion,
    })),
  ).toEqual(
    before.reactions.map(({ id, reactants, products, balance, conversion }) => ({
      id,
      reactants,
      products,
      balance,
      conversion,
    })),
  );
  expect(after.products.map(({ substance }) => substance)).toEqual(
    before.products.map(({ substance }) => substance),
  );
  expect(after.title).toBe(before.title);
  expect(after.header).toEqual(before.header);
});
