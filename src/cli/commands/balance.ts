import type { Composition } from '../../core/chemistry/composition.ts';
import {
  balance,
  describeExcess,
  isBalanced,
  printEquation,
  readEquation,
} from '../../core/chemistry/equation.ts';
import type { Balance, EquationText, Term } from '../../core/chemistry/equation.ts';
import { printHill } from '../../core/chemistry/hill.ts';
import { EXIT, refusal } from '../command.ts';
import type { Answer, Call, Command } from '../command.ts';
import { compositionOfText } from '../composition-of.ts';
import type { Paper } from '../paint/ink.ts';
import { harmless, paragraph } from '../paint/text.ts';

interface Sides {
  readonly left: readonly Composition[];
  readonly right: readonly Composition[];
}

function compositionsOf(equation: EquationText): Sides | Answer {
  const side = (terms: readonly Term[]): Composition[] | Answer => {
    const compositions: Composition[] = [];
    for (const term of terms) {
      const reading = compositionOfText(term.name);
      if (!reading.ok) return refusal(reading.message, reading.hint);
      compositions.push(reading.found.composition);
    }
    return compositions;
  };
  const left = side(equation.left);
  if (!Array.isArray(left)) return left;
  const right = side(equation.right);
  if (!Array.isArray(right)) return right;
  return { left, right };
}

function withCoefficients(equation: EquationText, result: Balance): EquationText {
  if (result.kind !== 'balanced') return equation;
  const put = (terms: readonly Term[], numbers: readonly number[]) =>
    terms.map((term, i) => ({ ...term, coefficient: numbers[i] === 1 ? null : numbers[i]! }));
  return {
    ...equation,
    left: put(equation.left, result.left),
    right: put(equation.right, result.right),
  };
}

/** What the coefficients that were written have to do with the answer. */
function verdictOf(equation: EquationText, sides: Sides): string | undefined {
  const portions = (list: readonly Term[], compositions: readonly Composition[]) =>
    compositions.map((c, i) => ({ c, n: list[i]?.coefficient ?? 1 }));
  const { balanced, excess } = isBalanced(
    portions(equation.left, sides.left),
    portions(equation.right, sides.right),
  );
  if (balanced) return 'It balances as written.';
  const bare = [...equation.left, ...equation.right].every((term) => term.coefficient === null);
  return bare ? undefined : `As written, ${describeExcess(excess)}.`;
}

function run(call: Call): Answer {
  const text = harmless(call.args.join(' '));
  const reading = readEquation(text);
  if (!reading.ok)
    return refusal(`${reading.message} (at character ${reading.column + 1})`, reading.hint);
  const { equation } = reading;
  const sides = compositionsOf(equation);
  if (!('left' in sides)) return sides;
  const names = {
    left: equation.left.map((t) => t.name),
    right: equation.right.map((t) => t.name),
  };
  const result = balance(sides.left, sides.right, names);
  const verdict = verdictOf(equation, sides);
  const asWritten = verdict === 'It balances as written.';
  const printed = printEquation(withCoefficients(equation, result));
  const fine = result.kind === 'balanced' || asWritten;
  return {
    kind: 'answer',
    exit: fine ? EXIT.fine : EXIT.findings,
    data: {
      equation: text,
      ...result,
      balancesAsWritten: asWritten,
      ...(result.kind === 'balanced' ? { printed } : {}),
      formulas: { left: sides.left.map(printHill), right: sides.right.map(printHill) },
    },
    paint: (paper) => paintBalance(result, printed, verdict, paper),
  };
}

function paintBalance(
  result: Balance,
  printed: string,
  verdict: string | undefined,
  paper: Paper,
): string {
  const parts =
    result.kind === 'balanced'
      ? [paper.ink.bold(printed)]
      : [paragraph(result.message, paper.width)];
  if (verdict !== undefined) parts.push(paragraph(verdict, paper.width));
  return parts.join('\n');
}

export const balanceCommand: Command = {
  name: 'balance',
  summary: 'coefficients of an equation, over every element and charge',
  takes: '"A + B -> C + D"',
  about:
    'Finds the smallest whole coefficients. Substances stand by formula, by a name of the table or as ' +
    'SMILES; charges as in Fe3+ or SO4^2-. Where none or more than one set of coefficients does, it ' +
    'says why.',
  options: {},
  examples: [
    'balance "KMnO4 + HCl -> KCl + MnCl2 + Cl2 + H2O"',
    'balance "Cr2O7^2- + Fe2+ + H+ -> Cr3+ + Fe3+ + H2O"',
    'balance "benzaldehyde + acetone -> dibenzalacetone + water"',
  ],
  arity: [1, 60],
  run,
};
