import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { describeExcess, printEquation, readEquation } from './equation.ts';
import type { Term } from './equation.ts';
import { compositionOf } from './composition.ts';
import { readFormula } from './formula.ts';
import { settle } from './settle.ts';
import type { Side } from './settle.ts';

const FUZZ_RUNS = Number(process.env.FUZZ_RUNS ?? 5000);

function shown(terms: readonly Term[]): string[] {
  return terms.map((t) => `${t.coefficient ?? ''}|${t.name}${t.state ? `|${t.state}` : ''}`);
}

describe('equations are read', () => {
  test.each<[string, string[], string[]]>([
    ['2 A + B -> C + D', ['2|A', '|B'], ['|C', '|D']],
    ['2H2+O2->2H2O', ['2|H2', '|O2'], ['2|H2O']],
    ['A → B', ['|A'], ['|B']],
    ['A = B', ['|A'], ['|B']],
    ['A ⇌ B', ['|A'], ['|B']],
    ['A <=> B', ['|A'], ['|B']],
    ['A --> B', ['|A'], ['|B']],
    ['A => B', ['|A'], ['|B']],
    ['2H2+O2=2H2O', ['2|H2', '|O2'], ['2|H2O']],
    ['A -> B.', ['|A'], ['|B']],
    // Numbers that belong to the name.
    [
      '4 4-methylcyclohexanone + NaBH4 + 4 H2O -> 4 4-methylcyclohexanol + NaB(OH)4',
      ['4|4-methylcyclohexanone', '|NaBH4', '4|H2O'],
      ['4|4-methylcyclohexanol', '|NaB(OH)4'],
    ],
    [
      '2-naphthol + 1,2-dibromoethane -> 1H-indole',
      ['|2-naphthol', '|1,2-dibromoethane'],
      ['|1H-indole'],
    ],
    ['2 1H-indole + 18-crown-6 -> B', ['2|1H-indole', '|18-crown-6'], ['|B']],
    [
      "N,N-dimethylaniline + 2,2′-bipyridyl -> 3',5'-x",
      ['|N,N-dimethylaniline', '|2,2′-bipyridyl'],
      ["|3',5'-x"],
    ],
    [
      'benzoic acid + ethanol = ethyl benzoate + water',
      ['|benzoic acid', '|ethanol'],
      ['|ethyl benzoate', '|water'],
    ],
    ['CC(=O)O + CCO -> CC(=O)OCC + O', ['|CC(=O)O', '|CCO'], ['|CC(=O)OCC', '|O']],
    ['(+)-limonene + HBr -> B', ['|(+)-limonene', '|HBr'], ['|B']],
    ['tris(bipyridine)ruthenium(2+) + A -> B', ['|tris(bipyridine)ruthenium(2+)', '|A'], ['|B']],
    // Charges and dividing signs.
    ['H+ + OH- -> H2O', ['|H+', '|OH-'], ['|H2O']],
    ['H++OH- -> H2O', ['|H+', '|OH-'], ['|H2O']],
    ['Fe3+ + e- ⇌ Fe2+', ['|Fe3+', '|e-'], ['|Fe2+']],
    ['MnO4^- + 8 H^+ -> B', ['|MnO4^-', '8|H^+'], ['|B']],
    ['[Na+] + [Cl-] -> NaCl', ['|[Na+]', '|[Cl-]'], ['|NaCl']],
    ['NaOH+ HCl -> NaCl +H2O', ['|NaOH', '|HCl'], ['|NaCl', '|H2O']],
    ['Na+ (aq) + Cl-(aq) -> NaCl(s)', ['|Na+|aq', '|Cl-|aq'], ['|NaCl|s']],
    // States.
    [
      'CaCO3(s) + 2 HCl(aq) -> CaCl2(aq) + H2O(l) + CO2↑',
      ['|CaCO3|s', '2|HCl|aq'],
      ['|CaCl2|aq', '|H2O|l', '|CO2|g'],
    ],
    // Coefficients.
    ['1/2 O2 + H2 -> H2O', ['0.5|O2', '|H2'], ['|H2O']],
    ['½ O2 + H2 -> H2O', ['0.5|O2', '|H2'], ['|H2O']],
    ['1½ O2 + A -> B', ['1.5|O2', '|A'], ['|B']],
    ['1.5 O2 + A -> B', ['1.5|O2', '|A'], ['|B']],
    ['1,5 O2 + A -> B', ['1.5|O2', '|A'], ['|B']],
    ['2 × NaOH + A -> B', ['2|NaOH', '|A'], ['|B']],
  ])('%s', (text, left, right) => {
    const reading = readEquation(text);
    if (!reading.ok) throw new Error(reading.message);
    expect(shown(reading.equation.left)).toEqual(left);
    expect(shown(reading.equation.right)).toEqual(right);
    for (const term of [...reading.equation.left, ...reading.equation.right])
      expect(text.slice(term.at, term.at + term.name.length)).toBe(term.name);
  });

  test('words over the arrow', () => {
    const reading = readEquation('A ->[H2SO4, heat] B');
    expect(reading).toMatchObject({ ok: true, equation: { over: 'H2SO4, heat' } });
    expect(readEquation('A -> [Cu] + B')).toMatchObject({
      equation: { right: [{ name: '[Cu]' }, { name: 'B' }] },
    });
  });

  test.each([
    ['', 0, 'missing'],
    ['A + B', 5, 'arrow'],
    ['A -> B -> C', 7, 'second arrow'],
    ['A <- B', 2, 'left'],
    ['-> B', 0, 'substance is missing'],
    ['A ->', 3, 'substance is missing'],
    ['A + -> B', 3, 'substance is missing'],
    ['A + + B -> C', 3, 'substance is missing'],
    ['0 A -> B', 0, 'coefficient of 0'],
    ['2000000 A -> B', 0, '1,000,000'],
    ['A + 2 -> B', 4, 'without a substance'],
    ['A'.repeat(2001), 2000, '2000 characters'],
    [Array.from({ length: 21 }, () => 'A').join(' + ') + ' -> B', 78, '20 substances'],
  ])('%s is refused', (text, column, message) => {
    const reading = readEquation(text);
    if (reading.ok) throw new Error('read');
    expect(reading.message).toContain(message);
    expect(reading.column).toBe(column);
    expect(reading.hint).not.toBe('');
  });
});

test('what is printed is read back', () => {
  const name = fc.constantFrom(
    'H2O',
    '2-naphthol',
    'Fe^3+',
    '1,2-dibromoethane',
    'acetic acid',
    '(+)-limonene',
    'e-',
    '[Na+]',
  );
  const term = fc.record({ coefficient: fc.option(fc.integer({ min: 2, max: 40 })), name });
  const terms = fc.array(term, { minLength: 1, maxLength: 5 });
  fc.assert(
    fc.property(terms, terms, fc.constantFrom(undefined, 'heat'), (left, right, over) => {
      const at = 0;
      const written = {
        left: left.map((t) => ({ ...t, at })),
        right: right.map((t) => ({ ...t, at })),
        ...(over === undefined ? {} : { over }),
      };
      const reading = readEquation(printEquation(written));
      if (!reading.ok) throw new Error(reading.message);
      expect(shown(reading.equation.left)).toEqual(shown(written.left));
      expect(shown(reading.equation.right)).toEqual(shown(written.right));
      expect(reading.equation.over).toBe(over);
    }),
    { numRuns: 500 },
  );
});

test('no text makes the reader throw or hang', () => {
  const piece = fc.oneof(
    fc.constantFrom(
      'H2O',
      ' + ',
      '+',
      ' -> ',
      '->',
      '=',
      '2 ',
      '1/2',
      '½',
      '(s)',
      '(',
      ')',
      '[',
      ']',
      '→',
      '<=>',
      '^',
      ' ',
    ),
    fc.string({ maxLength: 3, unit: 'binary' }),
  );
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 30 }), (pieces) => {
      const text = pieces.join('');
      const reading = readEquation(text);
      if (!reading.ok)
        return reading.column >= 0 && reading.column <= text.length && reading.hint !== '';
      return [...reading.equation.left, ...reading.equation.right].every(
        (t) => t.name !== '' && text.slice(t.at).startsWith(t.name),
      );
    }),
    { numRuns: FUZZ_RUNS },
  );
});

function sides(text: string): [Side, Side] {
  const reading = readEquation(text);
  if (!reading.ok) throw new Error(reading.message);
  const side = (terms: readonly Term[]): Side => ({
    terms,
    compositions: terms.map(({ name }) => {
      const formula = readFormula(name);
      if (!formula.ok) throw new Error(formula.message);
      return formula.composition;
    }),
  });
  return [side(reading.equation.left), side(reading.equation.right)];
}

describe('coefficients are settled', () => {
  test.each([
    ['H2 + Cl2 -> HCl', { kind: 'settled', left: [1, 1], right: [2], by: 'balanced' }],
    ['H2 + ½ O2 -> H2O', { kind: 'settled', left: [1, 0.5], right: [1], by: 'written' }],
    ['2 H2 + 2 Cl2 -> 4 HCl', { kind: 'settled', left: [2, 2], right: [4], by: 'written' }],
    // Atoms alone leave this open; as written it balances, and so it stands.
    [
      'C7H6O3 + C4H6O3 -> C9H8O4 + C2H4O2',
      { kind: 'settled', left: [1, 1], right: [1, 1], by: 'written' },
    ],
    ['2 H2 + Cl2 -> 2 HCl', { kind: 'unsettled', suggestion: { left: [1, 1], right: [2] } }],
    ['H2 + Cl2 -> HBr', { kind: 'unsettled' }],
    ['KMnO4 + H2SO4 + H2O2 -> K2SO4 + MnSO4 + H2O + O2', { kind: 'unsettled' }],
  ])('%s', (text, expected) => {
    expect(settle(...sides(text))).toMatchObject(expected);
  });

  test('several reactions are named with their substances', () => {
    const answer = settle(...sides('C + O2 -> CO + CO2'));
    expect(answer.kind === 'unsettled' && answer.message).toContain(
      '2 C + O2 -> 2 CO; C + O2 -> CO2',
    );
  });
});

test.each([
  [
    compositionOf([
      ['H', 2],
      ['O', 1],
      ['Na', -1],
    ]),
    'the right side has 2 H and 1 O too many and 1 Na too few',
  ],
  [compositionOf([], -2), 'the right side has a charge of 2- in excess'],
  [compositionOf([]), 'the two sides are equal'],
])('an excess in words', (excess, expected) => {
  expect(describeExcess(excess)).toBe(expected);
});
