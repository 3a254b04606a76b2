import { describe, expect, it } from 'vitest';
import { tableWith } from '../../chemistry/substance.ts';
import { enact } from '../../enact/enact.ts';
import { programOf } from '../../enact/program.ts';
import { readExperiment } from '../../experiment/read.ts';
import { benchSheet } from './sheet.ts';

const TARED = `# Benzoic acid

## Reaction
sodium benzoate + HCl -> benzoic acid + NaCl

## Procedure
1. Charge a 100 mL beaker with sodium benzoate 1.44 g and water 20 mL.
2. Add 2 M hydrochloric acid 6 mL to the beaker, LIMIT; stir vigorously.
3. Extract the mixture with ethyl acetate (3 × 10 mL).
4. Filter the combined extracts into a tared 50 mL round-bottomed flask.
5. Evaporate to dryness; weigh the product.

## Product
benzoic acid
`;

function taredSheet(limit = 'keeping the temperature below 40 °C') {
  const experiment = readExperiment(TARED.replace('LIMIT', limit));
  const { steps } = benchSheet(
    experiment,
    enact(programOf(experiment), tableWith(experiment.substances)),
  );
  return new Map(steps.map((step) => [step.id, step]));
}

describe('a sheet with a tared vessel and a limit', () => {
  it('asks for the tare where the vessel is first filled, and not when it is full', () => {
    const steps = taredSheet();
    expect(steps.get('4')!.fields.map(({ kind }) => kind)).toEqual(['tare']);
    expect(steps.get('5b')!.fields.map(({ kind }) => kind)).toEqual(['gross']);
  });

  it('begins every sentence with a capital', () => {
    const sentences = [...taredSheet().values()].map(({ sentence }) => sentence);
    expect(sentences).toContain('Stir vigorously');
    expect(sentences.filter((sentence) => !/^\p{Lu}/u.test(sentence))).toEqual([]);
  });

  it.each([
    ['keeping the temperature below 40 °C', 'at most 40 °C', undefined, 40],
    ['not letting the temperature rise above 40 °C', 'at most 40 °C', undefined, 40],
    ['so that the temperature stays below 10 °C', 'at most 10 °C', undefined, 10],
    ['keeping the temperature at 30 °C', '30 °C', 15, 45],
    ['keeping the temperature between 5 and 10 °C', '5–10 °C', -10, 25],
  ])('tells a limit from what is aimed at: %s', (limit, text, low, high) => {
    const field = taredSheet(limit)
      .get('2')!
      .fields.find(({ kind }) => kind === 'temperature')!;
    expect(field.planned!.text.replace(/\s/g, ' ')).toBe(text);
    expect(field.planned!.limit ?? false).toBe(text.startsWith('at most'));
    expect([field.low, field.high]).toEqual([low, high]);
  });
});

it('asks for a tare before what is charged into the vessel at the same step', () => {
  const document = `# Salt

## Vessels
- dish: evaporating dish

## Procedure
1. Charge the dish with sodium chloride 2 g.
2. Weigh the dish.
`;
  const experiment = readExperiment(document);
  const plan = enact(programOf(experiment), tableWith(experiment.substances));
  const [charged] = benchSheet(experiment, plan).steps;
  expect(charged!.fields.map(({ kind }) => kind)).toEqual(['tare', 'charge']);
});
