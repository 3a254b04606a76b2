import { expect, test } from 'vitest';
import { readExperiment } from './read.ts';

const LINES: readonly (readonly [line: string, isEquation: boolean])[] = [
  ['sodium benzoate +', true],
  ['sodium benzoate + HCl', true],
  ['C7H6O2', true],
  ['The acid gives its proton to the salt.', false],
  ['It is kept at 5 °C + or - 1 °C', false],
  ['Both are added, acid + base, in one go.', false],
  ['room 12', false],
  ['', false],
];

test.each(LINES)('“%s” without an arrow is an equation: %s', (line, isEquation) => {
  const read = readExperiment(`# A\n\n## Reaction\n\n  ${line}\nNaOH + HCl -> NaCl + H2O\n`);
  const said = read.diagnostics.filter((each) => each.code === 'equation-unreadable');
  expect(read.reactions).toHaveLength(1);
  expect(said.map(({ at }) => [at?.line, at?.column, at?.length])).toEqual(
    isEquation ? [[5, 3, line.length]] : [],
  );
});
