import { describe, expect, it } from 'vitest';
import { readExperiment } from '../../core/experiment/read.ts';
import { stepAt } from './step-at.ts';

const text = `# T

## Vessels

- flask: 100 mL round-bottom flask

## Procedure

1. Charge the flask with water 10 mL. Stir the flask for 5 min.
2. Cool the flask in ice for 5 min.
`;
const { steps } = readExperiment(text);
const at = (words: string, shift = 0) => stepAt({ text, steps }, text.indexOf(words) + shift)?.id;

describe('the step at a place', () => {
  it.each([
    ['Charge', 0, '1'],
    ['Charge', 8, '1'],
    ['1. Charge', 0, '1'],
    ['Stir', 2, '1b'],
    ['5 min.\n2', 6, '1b'],
    ['2. Cool', 0, '2'],
    ['Cool', 3, '2'],
  ])('%s + %i belongs to step %s', (words, shift, step) => {
    expect(at(words, shift)).toBe(step);
  });

  it.each([['# T'], ['## Vessels'], ['- flask'], ['## Procedure']])('%s is in no step', (words) => {
    expect(at(words)).toBeUndefined();
  });
});
