import { describe, expect, test } from 'vitest';
import published from './equations.json' with { type: 'json' };
import { balance, isBalanced, readEquation } from '../../src/core/chemistry/equation.ts';
import type { Balance, Term } from '../../src/core/chemistry/equation.ts';
import { readFormula } from '../../src/core/chemistry/formula.ts';
import type { Composition } from '../../src/core/chemistry/composition.ts';

function compositionsOf(terms: readonly Term[]): Composition[] {
  return terms.map(({ name }) => {
    const reading = readFormula(name);
    if (!reading.ok) throw new Error(`${name}: ${reading.message}`);
    return reading.composition;
  });
}

function sidesOf(text: string): { left: readonly Term[]; right: readonly Term[] } {
  const reading = readEquation(text);
  if (!reading.ok) throw new Error(`${text}: ${reading.message}`);
  return reading.equation;
}

function solve(text: string): Balance {
  const { left, right } = sidesOf(text);
  return balance(compositionsOf(left), compositionsOf(right));
}

describe('balancing finds the printed coefficients', () => {
  for (const { source, equations } of published.sets)
    test.each(equations)(`%s (${source})`, (text) => {
      const { left, right } = sidesOf(text);
      expect(solve(text)).toEqual({
        kind: 'balanced',
        left: left.map((term) => term.coefficient ?? 1),
        right: right.map((term) => term.coefficient ?? 1),
      });
    });

  test('there are sixty and more, ions and electrons among them', () => {
    const all = published.sets.flatMap((set) => set.equations);
    expect(all.length).toBeGreaterThanOrEqual(60);
    expect(
      all.filter((text) => /[+-](?:\s|$)/.test(text.replace(/ \+ | -> /g, '  '))).length,
    ).toBeGreaterThan(20);
  });
});

describe('what cannot be settled is said', () => {
  test.each(published.several)(
    '$equation has several solutions ($source)',
    ({ equation, solutions }) => {
      const answer = solve(equation);
      if (answer.kind !== 'several') throw new Error(`${equation}: ${answer.kind}`);
      expect(answer.basis).toHaveLength(solutions);
      const { left, right } = sidesOf(equation);
      const [lefts, rights] = [compositionsOf(left), compositionsOf(right)];
      for (const numbers of answer.basis) {
        expect(numbers.every((n) => Number.isInteger(n) && n >= 0)).toBe(true);
        const portions = [...lefts, ...rights].map((c, i) => ({ c, n: numbers[i]! }));
        expect(
          isBalanced(portions.slice(0, lefts.length), portions.slice(lefts.length)).balanced,
        ).toBe(true);
      }
      expect(answer.message).toContain('independent reactions');
    },
  );

  test.each(published.impossible)(
    '$equation cannot be balanced ($source)',
    ({ equation, says }) => {
      const answer = solve(equation);
      expect(answer.kind).toBe('impossible');
      expect(answer.kind === 'impossible' && answer.message).toContain(says);
    },
  );
});
