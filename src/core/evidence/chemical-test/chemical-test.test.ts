import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import patternTable from '../../facts/structure_patterns.json' with { type: 'json' };
import { rowsOf } from '../../facts/table.ts';
import { makeSubstance } from '../../chemistry/substance.ts';
import type { StructureFacts } from '../structure.ts';
import type { Subject, SubjectRole, Subjects } from '../subject.ts';
import { expectedOf } from './expected.ts';
import { OWN_GROUPS, groupsIn } from './groups.ts';
import { judgeChemicalTest } from './judge.ts';
import type { TestedStructures } from './judge.ts';
import { chemicalTestEnteredSchema } from './schema.ts';
import type { ChemicalTestEntered, TestEntered } from './schema.ts';
import { allChemicalTests, findChemicalTest } from './table.ts';

function subject(role: SubjectRole, name: string): Subject {
  const made = makeSubstance({ name });
  if (!made.ok) throw new Error(made.message);
  return { role, substance: made.substance, literature: {} };
}

/** Facts as the structure toolkit gives them, cut down to the patterns that tests ask for. */
const facts = (smiles: string, ...patterns: string[]): StructureFacts => ({
  smiles,
  matches: Object.fromEntries(patterns.map((pattern) => [pattern, [[0]]])),
});

const CYCLOHEXANONE = facts('O=C1CCCCC1', 'ketone', 'ketone-6-ring', 'carbonyl');
const CYCLOHEXANOL = facts('OC1CCCCC1', 'alcohol', 'alcohol-secondary', 'hydroxyl');
const BENZALDEHYDE = facts('O=Cc1ccccc1', 'aldehyde', 'aldehyde-aryl', 'carbonyl');

/** The oxidation of cyclohexanol. */
const OXIDATION: Subjects = {
  product: subject('product', 'cyclohexanone'),
  others: [subject('reagent', 'hypochlorite'), subject('startingMaterial', 'cyclohexanol')],
};
const STRUCTURES: TestedStructures = {
  product: CYCLOHEXANONE,
  startingMaterials: [CYCLOHEXANOL],
};

const entered = (...tests: TestEntered[]): ChemicalTestEntered => ({
  technique: 'chemicalTest',
  tests,
});

function brief(one: TestEntered, structures?: TestedStructures): string[] {
  expect(chemicalTestEnteredSchema.safeParse(entered(one)).success).toBe(true);
  const { statements } = judgeChemicalTest(entered(one), OXIDATION, structures);
  for (const { limits } of statements) expect(limits).not.toBe('');
  return statements.map(({ id, about, agreement, substance }) =>
    [id, about, agreement, ...(substance === undefined ? [] : [substance])].join(' '),
  );
}

describe('what a test was done on', () => {
  test.each([
    ['the crude product', 'identity'],
    ['cyclohexanone', 'identity'],
    ['cyclohexanol, starting material', 'instrument'],
    ['benzaldehyde', 'instrument'],
  ])('%s: %s', (sample, about) => {
    const one = { test: 'dnp', result: 'positive', sample } as const;
    const { statements } = judgeChemicalTest(entered(one), OXIDATION, STRUCTURES);
    expect(statements[0]!.about).toBe(about);
  });
});

describe('what a test can carry', () => {
  const weightOf = (one: TestEntered, structures: TestedStructures) =>
    judgeChemicalTest(entered(one), OXIDATION, structures).statements[0]!.weight;

  test('a group that only the product has counts, one that is missing hardly', () => {
    expect(weightOf({ test: 'dnp', result: 'positive' }, STRUCTURES)).toBe('moderate');
    expect(weightOf({ test: 'chromic-acid', result: 'negative' }, STRUCTURES)).toBe('weak');
  });

  test('nor does a group that the starting material has, too', () => {
    const both = { product: CYCLOHEXANONE, startingMaterials: [BENZALDEHYDE] };
    expect(weightOf({ test: 'dnp', result: 'positive' }, both)).toBe('weak');
  });

  test('of a starting material without a structure nothing is said', () => {
    const unknown = { product: CYCLOHEXANONE, startingMaterials: [{ smiles: '', matches: {} }] };
    const { statements } = judgeChemicalTest(
      entered({ test: 'dnp', result: 'positive' }),
      OXIDATION,
      unknown,
    );
    expect(statements.map(({ about }) => about)).toEqual(['identity']);
  });
});

describe('judging chemical tests', () => {
  test.each([
    [
      { test: 'dnp', result: 'positive' },
      [
        'test-1 identity agrees cyclohexanone',
        'test-1-starting-material-1 change agrees cyclohexanone',
      ],
    ],
    [
      { test: 'dnp', result: 'negative' },
      [
        'test-1 identity disagrees cyclohexanone',
        'test-1-starting-material-1 change disagrees cyclohexanone',
      ],
    ],
    [
      { test: 'chromic-acid', result: 'negative' },
      [
        'test-1 identity agrees cyclohexanone',
        'test-1-starting-material-1 startingMaterial agrees cyclohexanol',
      ],
    ],
    [
      { test: 'Chromic acid (Jones)', result: 'positive' },
      [
        'test-1 identity cannotTell cyclohexanone',
        'test-1-starting-material-1 startingMaterial disagrees cyclohexanol',
      ],
    ],
    [
      { test: 'beilstein', result: 'negative' },
      [
        'test-1 identity agrees cyclohexanone',
        'test-1-starting-material-1 startingMaterial cannotTell cyclohexanol',
      ],
    ],
    [
      { test: 'beilstein', result: 'positive' },
      [
        'test-1 identity disagrees cyclohexanone',
        'test-1-starting-material-1 startingMaterial cannotTell cyclohexanol',
      ],
    ],
    [
      { test: 'schiff', result: 'positive' },
      [
        'test-1 identity cannotTell cyclohexanone',
        'test-1-starting-material-1 startingMaterial cannotTell cyclohexanol',
      ],
    ],
    [
      { test: 'dnp', result: 'unclear' },
      [
        'test-1 identity cannotTell cyclohexanone',
        'test-1-starting-material-1 startingMaterial cannotTell cyclohexanol',
      ],
    ],
    [
      { test: 'dnp', result: 'positive', blank: 'positive' },
      [
        'test-1 identity cannotTell cyclohexanone',
        'test-1-starting-material-1 startingMaterial cannotTell cyclohexanol',
      ],
    ],
    [{ test: 'chloride-washings', result: 'positive' }, ['test-1 contaminant disagrees']],
    [{ test: 'peroxide', result: 'negative' }, ['test-1 contaminant agrees']],
  ] as [TestEntered, string[]][])('%j', (one, expected) => {
    expect(brief(one, STRUCTURES)).toEqual(expected);
  });

  test('without structures it says what the test answers to, and decides nothing', () => {
    expect(brief({ test: 'dnp', result: 'positive' })).toEqual([
      'test-1 identity cannotTell cyclohexanone',
    ]);
  });

  test.each([
    [{ test: 'smell', result: 'positive' }, 'test-unknown'],
    [{ test: 'dnp', result: 'positive', blank: 'unclear' }, 'test-blank-answers'],
    [{ test: 'dnp', result: 'negative', knownPositive: 'negative' }, 'test-control-fails'],
  ] as [TestEntered, string][])('%j: %s', (one, code) => {
    const { diagnostics } = judgeChemicalTest(entered(one), OXIDATION, STRUCTURES);
    expect(diagnostics.map((found) => found.code)).toEqual([code]);
  });

  test.each([
    ['tollens', BENZALDEHYDE, 'positive'],
    ['fehling', BENZALDEHYDE, 'open'],
    ['schiff', BENZALDEHYDE, 'positive'],
    ['dnp', CYCLOHEXANOL, 'negative'],
    ['lucas-in-minutes', CYCLOHEXANOL, 'positive'],
    ['lucas-at-once', CYCLOHEXANOL, 'open'],
    ['ferric-chloride', facts('Oc1ccccc1C(O)=O', 'phenol', 'acid'), 'positive'],
    ['ferric-chloride', facts('CC(=O)Oc1ccccc1C(O)=O', 'acid', 'ester-phenyl'), 'negative'],
    ['bicarbonate', facts('OC(=O)c1ccccc1', 'acid'), 'positive'],
    ['bromine', facts('C1=CCCCC1', 'alkene'), 'positive'],
    ['bromine', facts('C1CCCCC1'), 'negative'],
  ] as const)('%s: %o', (id, structure, expected) => {
    expect(expectedOf(findChemicalTest(id)!, structure).result).toBe(expected);
  });
});

describe('data/chemical_tests.csv', () => {
  const patterns = new Set(rowsOf(patternTable).map((row) => row['id']));
  const own: ReadonlySet<string> = new Set(OWN_GROUPS);

  test.each(allChemicalTests().map((one) => [one.id, one] as const))('%s', (_, one) => {
    for (const group of [...one.detects, ...one.may, ...one.misses])
      expect(patterns.has(group) || own.has(group), group).toBe(true);
    expect(one.positive).not.toBe('');
    expect(one.negative).not.toBe('');
    expect(one.source).not.toBe('');
    expect(one.detects.filter((group) => one.may.includes(group))).toEqual([]);
    if (one.use === 'workUp') expect([...one.detects, ...one.may]).toEqual([]);
  });

  test('ids are unique, and the hazardous ones carry a caution', () => {
    const ids = allChemicalTests().map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ['tollens', 'chromic-acid', 'bromine', 'dnp', 'molisch', 'peroxide'])
      expect(findChemicalTest(id)!.cautions, id).not.toBe('');
  });
});

describe('groups of our own', () => {
  test.each([
    ['CC(C)=O', ['methyl-ketone']],
    ['CC(O)=O', []],
    ['CC(N)=O', []],
    ['CC(=O)OC', []],
    ['CC(C)O', ['methyl-carbinol']],
    ['CC(C)OC', []],
    ['CCO', ['ethanol-or-acetaldehyde']],
    ['CCOC', []],
    ['CC=O', ['ethanol-or-acetaldehyde']],
    ['CCCBr', ['halide-primary', 'bromide-primary']],
    ['CC(C)Cl', ['halide-secondary']],
    ['CC(C)(C)Cl', ['halide-tertiary']],
    ['ClCc1ccccc1', ['halide-primary', 'halide-benzylic-or-allylic']],
    ['C=CCI', ['halide-primary', 'halide-benzylic-or-allylic']],
    ['ClC=C', []],
    ['CC(=O)Cl', []],
    ['[NH3+]CC([O-])=O', ['amino-acid-zwitterion']],
    ['[NH3+]Cc1ccccc1', []],
    ['C(', []],
  ] as [string, string[]][])('%s', (smiles, expected) => {
    const has = groupsIn(facts(smiles));
    expect(OWN_GROUPS.filter(has).sort()).toEqual([...expected].sort());
  });
});

describe('what must always hold', () => {
  const id = fc.constantFrom(...allChemicalTests().map((one) => one.id));
  const result = fc.constantFrom('positive' as const, 'negative' as const);

  test('the opposite answer never gets the same verdict, unless neither decides', () => {
    fc.assert(
      fc.property(id, (test_) => {
        const verdicts = (['positive', 'negative'] as const).map(
          (one) =>
            judgeChemicalTest(entered({ test: test_, result: one }), OXIDATION, STRUCTURES)
              .statements[0]!.agreement,
        );
        if (verdicts[0] === verdicts[1]) expect(verdicts[0]).toBe('cannotTell');
      }),
    );
  });

  test('each test is judged by itself', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(id, result), { minLength: 1, maxLength: 6 }), (list) => {
        const tests = list.map(([test_, one]) => ({ test: test_, result: one }));
        const all = judgeChemicalTest(entered(...tests), OXIDATION, STRUCTURES).statements;
        const alone = tests.flatMap(
          (one) => judgeChemicalTest(entered(one), OXIDATION, STRUCTURES).statements,
        );
        expect(all.map(({ says }) => says)).toEqual(alone.map(({ says }) => says));
        expect(new Set(all.map((statement) => statement.id)).size).toBe(all.length);
      }),
    );
  });
});
