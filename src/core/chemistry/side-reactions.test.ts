import { describe, expect, it } from 'vitest';
import sideReactionTable from '../facts/side_reactions.json' with { type: 'json' };
import { rowsOf } from '../facts/table.ts';
import {
  addCompositions,
  isNothing,
  scaleComposition,
  subtractComposition,
} from './composition.ts';
import { readEquation } from './equation.ts';
import type { Term } from './equation.ts';
import { printHill } from './hill.ts';
import { tableWith } from './substance.ts';

const table = tableWith([]);
const rows = rowsOf(sideReactionTable);
const KINDS =
  /^(acid-metal|acid-carbonate|acid-base|hydride-quench|acyl-hydrolysis|organometal-quench|oxidant-quench|other)$/;

function side(terms: readonly Term[]) {
  const parts = terms.map(({ name, coefficient }) => {
    const composition = table.byName.get(name.toLowerCase())?.composition;
    expect(composition, `${name} has no composition in the table`).toBeDefined();
    return scaleComposition(composition!, coefficient ?? 1);
  });
  return addCompositions(...parts);
}

describe('data/side_reactions.csv', () => {
  it.each(rows.map((row) => [row['equation']!, row] as const))('%s', (equation, row) => {
    const reading = readEquation(equation);
    if (!reading.ok) throw new Error(reading.message);
    const { left, right } = reading.equation;
    const excess = subtractComposition(side(right), side(left));
    expect(isNothing(excess), `left over: ${printHill(excess)}`).toBe(true);
    expect(row['when']).toMatch(KINDS);
    expect(row['trigger']).toMatch(/^(contact|activation|quench)$/);
    expect(row['id']!.startsWith(`${row['when']}-`)).toBe(true);
  });
  it('has one id and one equation a row', () => {
    expect(new Set(rows.map((row) => row['id'])).size).toBe(rows.length);
    expect(new Set(rows.map((row) => row['equation'])).size).toBe(rows.length);
  });
});
