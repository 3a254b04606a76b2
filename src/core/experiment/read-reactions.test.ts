import { describe, expect, test } from 'vitest';
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

describe('an equation with a name that is not known', () => {
  const read = (equation: string) => readExperiment(`# A\n\n## Reaction\n${equation}\n`);
  const codes = (equation: string) => read(equation).diagnostics.map(({ code }) => code);

  test.each([
    'benzil + Zn + 2 acetic acid -> benzoin + zinc flubberate',
    'flubberic acid + NaOH -> sodium flubberate + H2O',
    'flubberic acid -> benzoin',
  ])('is a reaction all the same: %s', (equation) => {
    const { reactions } = read(equation);
    expect(reactions.map(({ text, balance }) => [text, balance])).toEqual([[equation, 'open']]);
    expect(codes(equation)).toContain('substance-unknown');
    expect(codes(equation)).not.toContain('reaction-missing');
    expect(codes(equation)).not.toContain('equation-open');
  });

  test('keeps what is known, its numbers and its product', () => {
    const { reactions, products } = read('benzil + Zn + 2 AcOH -> benzoin + zinc flubberate');
    expect(
      reactions[0]!.reactants.map(({ coefficient, substance }) => [coefficient, substance.name]),
    ).toEqual([
      [1, 'benzil'],
      [1, 'zinc'],
      [2, 'acetic acid'],
    ]);
    expect(products.map(({ name }) => name)).toEqual(['benzoin']);
  });

  test('the example of a declaration is no other substance', () => {
    const hint = read('benzil -> zinc flubberate').diagnostics.find(
      ({ code }) => code === 'substance-unknown',
    )!.hint;
    expect(hint).toContain('zinc flubberate');
    expect(hint).not.toContain('CCO');
  });

  test('of what is written as a formula, the formula is found fault with', () => {
    const { hint } = read('benzil -> Zn(QAc)2').diagnostics.find(
      ({ code }) => code === 'substance-unknown',
    )!;
    expect(hint).toContain('Q');
    expect(hint).not.toContain('write its formula');
  });
});

test('acetate written OAc is read', () => {
  const { reactions, diagnostics } = readExperiment(
    '# A\n\n## Reaction\nbenzil + Zn + 2 AcOH -> benzoin + Zn(OAc)2\n',
  );
  expect(reactions[0]?.balance).toBe('written');
  expect(diagnostics.map(({ code }) => code)).toEqual(['procedure-missing']);
});
