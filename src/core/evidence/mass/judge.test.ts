import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { compositionOf } from '../../chemistry/composition.ts';
import { makeSubstance } from '../../chemistry/substance.ts';
import { peaksOfTrace } from './from-trace.ts';
import { isotopePattern } from './isotopes.ts';
import { judgeMass } from './judge.ts';
import { massEnteredSchema } from './schema.ts';
import { entered, subject } from './testing.ts';

const BROMOBENZENE = subject('bromobenzene', 'Brc1ccccc1');
const PHENYL = [
  [77, 100],
  [51, 40],
  [50, 20],
] as const;

describe('what a table of peaks says', () => {
  const cases = [
    {
      name: 'bromobenzene with both isotopes',
      product: BROMOBENZENE,
      of: entered('EI', [[156, 97], [157, 7], [158, 95], [159, 6], ...PHENYL]),
      ion: 'agrees',
      isotopes: 'agrees',
    },
    {
      name: 'no M + 2 where bromine asks for one',
      product: BROMOBENZENE,
      of: entered('EI', [[156, 97], [157, 7], ...PHENYL, [63, 1]]),
      ion: 'agrees',
      isotopes: 'disagrees',
    },
    {
      name: 'M + 2 of a third where there is no chlorine',
      product: subject('benzyl alcohol', 'OCc1ccccc1'),
      of: entered('EI', [
        [108, 90],
        [109, 7],
        [110, 30],
        [79, 100],
        [77, 60],
      ]),
      ion: 'agrees',
      isotopes: 'disagrees',
    },
    {
      name: 'M + 1 alone too strong, as esters take up a hydrogen',
      product: subject('butyl acetate', 'CCCCOC(C)=O'),
      of: entered('EI', [
        [116, 20],
        [117, 8],
        [43, 100],
        [56, 30],
        [63, 0.5],
      ]),
      ion: 'agrees',
      isotopes: 'cannotTell',
    },
    {
      name: 'an alcohol without a molecular ion',
      product: subject('2-methyl-2-butanol', 'CCC(C)(C)O'),
      of: entered('EI', [
        [59, 100],
        [55, 40],
        [73, 50],
        [43, 30],
      ]),
      ion: 'cannotTell',
      isotopes: undefined,
    },
    {
      name: 'something heavier than the product',
      product: subject('2-methyl-2-butanol', 'CCC(C)(C)O'),
      of: entered('EI', [
        [59, 100],
        [150, 40],
      ]),
      ion: 'disagrees',
      isotopes: undefined,
    },
    {
      name: 'electrospray, sodium adduct, accurate',
      product: subject('paracetamol', 'CC(=O)Nc1ccc(O)cc1'),
      of: entered(
        'ESI+',
        [
          [174.0528, 100],
          [175.056, 9],
          [152.071, 30],
        ],
        { massU_ppm: 3 },
      ),
      ion: 'agrees',
      isotopes: 'agrees',
    },
    {
      name: 'electrospray, 20 ppm off',
      product: subject('paracetamol', 'CC(=O)Nc1ccc(O)cc1'),
      of: entered('ESI+', [[152.0737, 100]], { massU_ppm: 3 }),
      ion: 'disagrees',
      isotopes: undefined,
    },
    {
      name: 'a salt shows its cation',
      product: subject('tetrabutylammonium bromide', 'CCCC[N+](CCCC)(CCCC)CCCC.[Br-]'),
      of: entered('ESI+', [
        [242.28, 100],
        [243.29, 18],
      ]),
      ion: 'agrees',
      isotopes: 'agrees',
    },
    {
      name: 'boron has a peak below M',
      product: subject('phenylboronic acid', 'OB(O)c1ccccc1'),
      of: entered('EI', [
        [122, 100],
        [121, 25],
        [123, 7],
        [77, 20],
      ]),
      ion: 'agrees',
      isotopes: 'agrees',
    },
  ] as const;
  test.each(cases)('$name', ({ product, of, ion, isotopes }) => {
    const { statements, diagnostics } = judgeMass(of, { product, others: [] });
    expect(diagnostics).toEqual([]);
    const by = (id: string) => statements.find((one) => one.id === id)?.agreement;
    expect({ ion: by('mass-ion'), isotopes: by('mass-isotopes') }).toEqual({ ion, isotopes });
    for (const one of statements) {
      expect(one.limits).not.toBe('');
      expect(one.says).not.toMatch(/confirmed|!/);
    }
  });
});

describe('starting material', () => {
  const bromide = subject('benzyl bromide', 'BrCc1ccccc1', 'startingMaterial');
  const others = [bromide];
  test('heavier than the product and seen', () => {
    const of = entered('EI', [
      [108, 80],
      [79, 100],
      [170, 10],
      [172, 10],
    ]);
    const { statements } = judgeMass(of, {
      product: subject('benzyl alcohol', 'OCc1ccccc1'),
      others,
    });
    const found = statements.find((one) => one.id === 'mass-starting-material-1');
    expect(found).toMatchObject({ agreement: 'disagrees', substance: 'benzyl bromide' });
  });
  test('not seen: electron ionisation proves nothing', () => {
    const of = entered('EI', [
      [108, 80],
      [79, 100],
    ]);
    const { statements } = judgeMass(of, {
      product: subject('benzyl alcohol', 'OCc1ccccc1'),
      others,
    });
    expect(statements.find((one) => one.id === 'mass-starting-material-1')?.agreement).toBe(
      'cannotTell',
    );
  });
  test('lighter than the product: may be a fragment', () => {
    const of = entered('EI', [
      [108, 80],
      [150, 30],
      [91, 100],
    ]);
    const alcohol = subject('benzyl alcohol', 'OCc1ccccc1', 'startingMaterial');
    const product = subject('benzyl acetate', 'CC(=O)OCc1ccccc1');
    const { statements } = judgeMass(of, { product, others: [alcohol] });
    expect(statements.find((one) => one.id === 'mass-starting-material-1')?.agreement).toBe(
      'cannotTell',
    );
  });
});

describe('what is wrong with the measurement', () => {
  test('no peaks', () => {
    const { statements, diagnostics } = judgeMass(entered('EI', [[100, 0]]), { others: [] });
    expect(statements).toEqual([]);
    expect(diagnostics.map((one) => one.code)).toEqual(['mass-no-peaks']);
  });
  test('a product without a formula', () => {
    const made = makeSubstance({ name: 'resin' });
    if (!made.ok) throw new Error(made.message);
    const product = { role: 'product', substance: made.substance, literature: {} } as const;
    const { diagnostics } = judgeMass(entered('EI', [[100, 1]]), { product, others: [] });
    expect(diagnostics.map((one) => one.code)).toEqual(['mass-no-formula']);
  });
  test('an element whose isotopes are not in the table', () => {
    const product = subject('tetraethyllead', 'CC[Pb](CC)(CC)CC');
    const { diagnostics } = judgeMass(entered('EI', [[295, 1]]), { product, others: [] });
    expect(diagnostics.map((one) => one.code)).toEqual(['mass-no-isotopes']);
  });
  test('no product at all', () => {
    expect(judgeMass(entered('EI', [[100, 1]]), { others: [] })).toEqual({
      statements: [],
      diagnostics: [],
    });
  });
});

test('the schema takes what is judged and refuses what is not known', () => {
  const good = entered('EI', [[156, 97]]);
  expect(massEnteredSchema.parse(good)).toEqual(good);
  expect(massEnteredSchema.safeParse({ ...good, ionisation: 'MALDI' }).success).toBe(false);
  expect(massEnteredSchema.safeParse({ ...good, extra: 1 }).success).toBe(false);
});

test('peaks of a curve are its maxima, those of a table all', () => {
  const trace = {
    title: 'scan',
    technique: 'mass',
    x: Float64Array.of(99.9, 100, 100.1, 100.2, 100.9, 101, 101.1),
    y: Float64Array.of(1, 9, 2, Number.NaN, 0.5, 3, 0.1),
    xUnit: 'm/z',
    yUnit: 'arbitrary',
    headers: {},
    warnings: [],
  } as const;
  expect(peaksOfTrace({ ...trace, kind: 'curve' }).map((peak) => peak.mz)).toEqual([100, 101]);
  expect(peaksOfTrace({ ...trace, kind: 'peaks' })).toHaveLength(6);
});

describe('patterns of any formula', () => {
  const counts = fc.record({
    C: fc.integer({ min: 1, max: 30 }),
    H: fc.integer({ min: 0, max: 60 }),
    Cl: fc.integer({ min: 0, max: 4 }),
    Br: fc.integer({ min: 0, max: 3 }),
    S: fc.integer({ min: 0, max: 2 }),
  });
  test('M is 1, and the order of the atoms does not matter', () => {
    fc.assert(
      fc.property(counts, (formula) => {
        const forward = isotopePattern(compositionOf(Object.entries(formula)));
        const back = isotopePattern(compositionOf(Object.entries(formula).reverse()));
        expect(back.length).toBe(forward.length);
        forward.forEach((peak, i) => expect(back[i]!.ratio).toBeCloseTo(peak.ratio, 9));
        expect(forward.find((peak) => peak.above === 0)?.ratio).toBe(1);
      }),
      { numRuns: 100 },
    );
  });
  test('M + 1 of carbon alone is n · 13C/12C', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), (n) => {
        const one = isotopePattern(compositionOf([['C', n]])).find((peak) => peak.above === 1);
        expect(one?.ratio).toBeCloseTo((n * 0.011078) / 0.988922, 9);
      }),
    );
  });
});

test('whatever is entered, it is judged without an error, in finite numbers', () => {
  const peak = fc.record({
    mz: fc.double({ min: 1, max: 400, noNaN: true }),
    intensity: fc.double({ min: 0, max: 1e9, noNaN: true }),
  });
  const ionisation = fc.constantFrom(...(['EI', 'CI', 'ESI+', 'ESI−'] as const));
  fc.assert(
    fc.property(fc.array(peak, { maxLength: 40 }), ionisation, (peaks, how) => {
      const of = { technique: 'mass', ionisation: how, peaks } as const;
      const { statements } = judgeMass(of, { product: BROMOBENZENE, others: [] });
      for (const one of statements)
        expect(`${one.measured}${one.says}`).not.toMatch(/NaN|undefined|Infinity/);
    }),
    { numRuns: 200 },
  );
});
