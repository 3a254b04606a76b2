import published from '../test/published/equations.json' with { type: 'json' };
import type { Composition } from '../src/core/chemistry/composition.ts';
import { balance, isBalanced, readEquation } from '../src/core/chemistry/equation.ts';
import type { Term } from '../src/core/chemistry/equation.ts';
import { readFormula } from '../src/core/chemistry/formula.ts';
import type { Item } from './item.ts';
import { timeText } from './item.ts';
import { median, warmTimesOf } from './measure.ts';

const EQUATIONS = 60;

function compositionsOf(terms: readonly Term[]): Composition[] {
  return terms.map(({ name }) => {
    const reading = readFormula(name);
    if (!reading.ok) throw new Error(`${name}: ${reading.message}`);
    return reading.composition;
  });
}

function readSides(text: string) {
  const reading = readEquation(text);
  if (!reading.ok) throw new Error(`${text}: ${reading.message}`);
  const { left, right } = reading.equation;
  return { left, right, lefts: compositionsOf(left), rights: compositionsOf(right) };
}

function solved(text: string): boolean {
  const { left, right, lefts, rights } = readSides(text);
  const answer = balance(lefts, rights);
  if (answer.kind !== 'balanced') return false;
  const agrees = (numbers: readonly number[], terms: readonly Term[]) =>
    numbers.every((n, i) => n === (terms[i]!.coefficient ?? 1));
  return agrees(answer.left, left) && agrees(answer.right, right);
}

function adds(text: string): boolean {
  const { left, right, lefts, rights } = readSides(text);
  const portions = (terms: readonly Term[], all: readonly Composition[]) =>
    terms.map(({ coefficient }, i) => ({ c: all[i]!, n: coefficient ?? 1 }));
  return isBalanced(portions(left, lefts), portions(right, rights)).balanced;
}

/** Textbook equations balanced from their formulas, the printed coefficients not looked at. */
export function equations(): Item[] {
  const texts = published.sets.flatMap((set) => set.equations).slice(0, EQUATIONS);
  const right = texts.filter(solved).length;
  const reading_ms = warmTimesOf(100, () => texts.map(readSides), 200);
  return [
    {
      what: `${texts.length} textbook equations read and balanced`,
      times_ms: warmTimesOf(200, () => texts.filter(solved).length),
      baseline: {
        what: 'reading them and adding up the printed coefficients',
        times_ms: warmTimesOf(200, () => texts.filter(adds).length, 200),
      },
      remarks: [
        `${right} of ${texts.length} come out as printed. Reading alone ${timeText(median(reading_ms))}.`,
      ],
    },
  ];
}
