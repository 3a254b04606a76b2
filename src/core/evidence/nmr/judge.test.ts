import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Subject } from '../subject.ts';
import { judgeNmr } from './judge.ts';
import { nmrEnteredSchema } from './schema.ts';
import { spectrum, subject } from './testing.ts';
import type { Row } from './testing.ts';

/** Signals as taught for these substances in CDCl3 (rounded; from memory). */
const ASPIRIN: readonly Row[] = [
  [2.35, 3.02, 's'],
  [7.14, 1.0, 'dd'],
  [7.36, 1.0, 'td'],
  [7.62, 0.98, 'td'],
  [8.12, 1.01, 'dd'],
  [11.8, 0.7, 'br s'],
];
const BENZYL_ACETATE: readonly Row[] = [
  [2.1, 3, 's'],
  [5.11, 2, 's'],
  [7.35, 5, 'm'],
];
const ETHYL_BENZOATE: readonly Row[] = [
  [1.39, 3, 't'],
  [4.38, 2, 'q'],
  [7.43, 2, 't'],
  [7.55, 1, 't'],
  [8.05, 2, 'd'],
];
const METHYL_BENZOATE: readonly Row[] = [
  [3.91, 3, 's'],
  [7.43, 2, 't'],
  [7.54, 1, 't'],
  [8.03, 2, 'd'],
];
const ISOPENTYL_ACETATE: readonly Row[] = [
  [0.92, 6, 'd'],
  [1.52, 2, 'q'],
  [1.69, 1, 'm'],
  [2.04, 3, 's'],
  [4.1, 2, 't'],
];
const ESTRAGOLE: readonly Row[] = [
  [3.33, 2, 'd'],
  [3.78, 3, 's'],
  [5.05, 2, 'm'],
  [5.95, 1, 'ddt'],
  [6.84, 2, 'd'],
  [7.1, 2, 'd'],
];

const product = {
  aspirin: subject('aspirin', 'CC(=O)Oc1ccccc1C(=O)O'),
  salicylicAcid: subject('salicylic acid', 'O=C(O)c1ccccc1O'),
  benzylAcetate: subject('benzyl acetate', 'CC(=O)OCc1ccccc1'),
  methylPhenylacetate: subject('methyl phenylacetate', 'COC(=O)Cc1ccccc1'),
  ethylBenzoate: subject('ethyl benzoate', 'CCOC(=O)c1ccccc1'),
  methylBenzoate: subject('methyl benzoate', 'COC(=O)c1ccccc1'),
  isopentylAcetate: subject('isopentyl acetate', 'CC(C)CCOC(C)=O'),
  butylAcetate: subject('butyl acetate', 'CCCCOC(C)=O'),
  estragole: subject('estragole', 'COc1ccc(CC=C)cc1'),
  anethole: subject('anethole', 'COc1ccc(C=CC)cc1'),
};

const statementOf = (
  rows: readonly Row[],
  of: Subject,
  id: string,
  others: readonly Subject[] = [],
) => judgeNmr(spectrum(rows), { product: of, others }).statements.find((one) => one.id === id);

describe('a structure and its own signals, or those of another', () => {
  test.each([
    ['aspirin', ASPIRIN, product.aspirin, 'agrees'],
    ['aspirin judged as salicylic acid', ASPIRIN, product.salicylicAcid, 'not'],
    ['benzyl acetate', BENZYL_ACETATE, product.benzylAcetate, 'agrees'],
    ['benzyl acetate judged as its isomer', BENZYL_ACETATE, product.methylPhenylacetate, 'not'],
    ['ethyl benzoate', ETHYL_BENZOATE, product.ethylBenzoate, 'agrees'],
    ['methyl for ethyl benzoate', METHYL_BENZOATE, product.ethylBenzoate, 'not'],
    ['ethyl for methyl benzoate', ETHYL_BENZOATE, product.methylBenzoate, 'not'],
    ['isopentyl acetate', ISOPENTYL_ACETATE, product.isopentylAcetate, 'agrees'],
    ['isopentyl for butyl acetate', ISOPENTYL_ACETATE, product.butylAcetate, 'not'],
    ['estragole', ESTRAGOLE, product.estragole, 'agrees'],
    ['estragole judged as anethole', ESTRAGOLE, product.anethole, 'not'],
  ] as const)('%s', (_, rows, of, agreement) => {
    const found = statementOf(rows, of, 'nmr-structure')?.agreement;
    if (agreement === 'agrees') expect(found).toBe('agrees');
    else {
      // A misfit shows either in the structure or as a signal that is left over.
      const left = statementOf(rows, of, 'nmr-unexplained');
      expect(found === 'agrees' && left === undefined).toBe(false);
    }
  });

  test('a methylcyclohexanol with its OH and CH under other signals', () => {
    const rows: readonly Row[] = [
      [3.53, 0.8, 'm'],
      [1.95, 1.7, 'm'],
      [1.7, 2.2, 'm'],
      [1.3, 4.1, 'm'],
      [0.95, 5.2, 'm'],
    ];
    const of = subject('4-methylcyclohexanol', 'CC1CCC(O)CC1');
    expect(statementOf(rows, of, 'nmr-structure')?.agreement).not.toBe('disagrees');
  });

  test('the scale of the integrals does not matter', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e6, noNaN: true }), (factor) => {
        const rows = ETHYL_BENZOATE.map(([ppm, area, m]): Row => [ppm, area * factor, m]);
        expect(statementOf(rows, product.ethylBenzoate, 'nmr-structure')?.agreement).toBe('agrees');
      }),
      { numRuns: 25 },
    );
  });

  test('nor does the order of the signals', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray([...ESTRAGOLE], { minLength: ESTRAGOLE.length }), (rows) => {
        expect(statementOf(rows, product.estragole, 'nmr-structure')?.agreement).toBe('agrees');
      }),
      { numRuns: 25 },
    );
  });
});

describe('what else is in the tube', () => {
  const dirty: readonly Row[] = [
    ...BENZYL_ACETATE,
    [4.12, 0.2, 'q'],
    [2.05, 0.3, 's'],
    [1.26, 0.3, 't'],
    [5.3, 0.1, 's'],
    [1.56, 0.1, 'br s'],
    [7.26, 0.4, 's'],
    [9.2, 0.3, 's'],
  ];
  const { statements } = judgeNmr(spectrum(dirty), { product: product.benzylAcetate, others: [] });
  const by = (id: string) => statements.find((one) => one.id === id);

  test('solvents are named, water and the solvent itself are not held against the sample', () => {
    expect(by('nmr-structure')?.agreement).toBe('agrees');
    expect(by('nmr-residual-ethyl-acetate')?.agreement).toBe('disagrees');
    expect(by('nmr-residual-dichloromethane')).toMatchObject({ weight: 'weak' });
    expect(by('nmr-residual-water')?.agreement).toBe('cannotTell');
    expect(by('nmr-unexplained')?.measured).toMatch(/^9\.20 \(s\) ppm/);
    expect(statements.some((one) => one.measured.includes('7.26'))).toBe(false);
  });

  test('the mass share is an upper bound, by hand', () => {
    // Per hydrogen: ester 1, ethyl acetate 0.1, dichloromethane 0.05.
    const share = 150.177 / (150.177 + 0.1 * 88.106 + 0.05 * 84.93);
    expect(by('nmr-composition')?.purity).toMatchObject({ basis: 'mass', kind: 'atMost', u: 0 });
    const said = by('nmr-composition')!;
    expect(said.measured).toMatch(new RegExp(`at most ${(100 * share).toFixed(2)} ± `));
    // The bound is measured, too: it stands at the end of its uncertainty
    const U = Number(/± ([\d.]+) %/.exec(said.measured)![1]) / 100;
    expect(said.purity!.share).toBeCloseTo(share + U, 3);
  });

  test('two of three ethyl acetate signals are not ethyl acetate', () => {
    const rows: readonly Row[] = [...ETHYL_BENZOATE, [4.12, 0.2, 'q'], [1.26, 0.3, 't']];
    const found = judgeNmr(spectrum(rows), { product: product.ethylBenzoate, others: [] });
    expect(found.statements.some((one) => one.id === 'nmr-residual-ethyl-acetate')).toBe(false);
  });
});

describe('starting material', () => {
  const benzaldehyde = subject('benzaldehyde', 'O=Cc1ccccc1', 'startingMaterial');
  const alcohol = subject('benzyl alcohol', 'OCc1ccccc1');
  const clean: readonly Row[] = [
    [7.35, 5, 'm'],
    [4.68, 2, 's'],
    [1.9, 1, 'br s'],
  ];
  test('no aldehyde signal', () => {
    expect(statementOf(clean, alcohol, 'nmr-starting-material-1', [benzaldehyde])).toMatchObject({
      agreement: 'agrees',
      substance: 'benzaldehyde',
    });
  });
  test('an aldehyde signal', () => {
    const rows: readonly Row[] = [...clean, [10.02, 0.15, 's']];
    expect(statementOf(rows, alcohol, 'nmr-starting-material-1', [benzaldehyde])?.agreement).toBe(
      'disagrees',
    );
  });
  test('conversion from one signal each', () => {
    const entered = spectrum([], {}, [
      { shift_ppm: 4.68, integral: 9, assignment: { to: 'product', hydrogens: 2 } },
      { shift_ppm: 10.02, integral: 0.5, assignment: { to: 'startingMaterial', hydrogens: 1 } },
    ]);
    const { statements } = judgeNmr(entered, { product: alcohol, others: [benzaldehyde] });
    expect(statements.find((one) => one.id === 'nmr-conversion')?.measured).toMatch(/^90\.0 ± /);
  });
});

test('the ratio of isomers', () => {
  const entered = spectrum([], {}, [
    { shift_ppm: 4.03, integral: 1, assignment: { to: 'isomer', of: 'cis', hydrogens: 1 } },
    { shift_ppm: 3.52, integral: 4, assignment: { to: 'isomer', of: 'trans', hydrogens: 1 } },
  ]);
  const of = subject('4-tert-butylcyclohexanol', 'CC(C)(C)C1CCC(O)CC1');
  const found = judgeNmr(entered, { product: of, others: [] }).statements;
  expect(found.find((one) => one.id === 'nmr-isomers')?.measured).toMatch(
    /^20\.0 : 80\.0; cis 20\./,
  );
});

describe('purity against a weighed standard', () => {
  const paracetamol = subject('paracetamol', 'CC(=O)Nc1ccc(O)cc1');
  const standard = {
    substance: 'maleic acid',
    smiles: 'OC(=O)/C=C\\C(=O)O',
    mass_mg: 10.0,
    massU_mg: 0.05,
    purity_percent: 99.9,
    purityU_percent: 0.1,
    hydrogens: 2,
    shift_ppm: 6.26,
  };
  const rows: readonly Row[] = [
    [6.26, 2, 's'],
    [7.34, 2.2, 'd'],
    [6.68, 2.2, 'd'],
    [1.98, 3.3, 's'],
  ];
  const more = {
    solvent: 'DMSO-d6',
    standard,
    sampleMass_mg: 15,
    sampleMassU_mg: 0.05,
    integralU_percent: 1,
  } as const;

  test('value and uncertainty by hand', () => {
    const { statements, diagnostics } = judgeNmr(spectrum(rows, more), {
      product: paracetamol,
      others: [],
    });
    const found = statements.find((one) => one.id === 'nmr-purity')?.purity;
    const share = (7.7 / 7) * (151.165 / 116.072) * (10 / 15) * 0.999;
    expect(found?.share).toBeCloseTo(share, 4);
    expect(found).toMatchObject({ basis: 'mass', kind: 'measured', of: 'paracetamol' });
    // Integrals 1 % each with 0.2 % of the largest added, masses, purity of the standard.
    const area = (one: number) => Math.hypot(0.01 * one, 0.002 * 3.3);
    const u =
      share *
      Math.hypot(
        Math.hypot(area(2.2), area(2.2), area(3.3)) / 7.7,
        area(2) / 2,
        0.05 / 10,
        0.05 / 15,
        0.001 / 0.999,
      );
    expect(found?.u).toBeCloseTo(u, 4);
    expect(diagnostics).toEqual([]);
  });

  test('refused, with the reason', () => {
    const { sampleMass_mg: _, ...unweighed } = more;
    const codes = (entered: Parameters<typeof judgeNmr>[0]) =>
      judgeNmr(entered, { product: paracetamol, others: [] }).diagnostics.map((one) => one.code);
    expect(codes(spectrum(rows, unweighed))).toEqual(['nmr-sample-mass']);
    const { smiles: _smiles, ...unknown } = standard;
    expect(codes(spectrum(rows, { ...more, standard: { ...unknown, substance: 'X' } }))).toEqual([
      'nmr-standard-molar-mass',
    ]);
    expect(codes(spectrum(rows.slice(1), more))).toEqual(['nmr-standard-signal']);
    expect(codes(spectrum(rows, { ...more, sampleMass_mg: 9 }))).toEqual(['nmr-purity-over-100']);
  });
});

describe('what is wrong with the entry', () => {
  const codes = (rows: readonly Row[], of = product.ethylBenzoate) =>
    judgeNmr(spectrum(rows), { product: of, others: [] }).diagnostics.map((one) => one.code);
  test('findings', () => {
    expect(codes([])).toEqual(['nmr-no-signals']);
    expect(codes([[1, 1, 'xyz'], ...ETHYL_BENZOATE])).toContain('nmr-multiplicity');
    expect(codes([[0.3, 0, 's'], ...ETHYL_BENZOATE])).toContain('nmr-integral-zero');
    expect(codes(ETHYL_BENZOATE.map(([ppm, , m]): Row => [ppm, 0, m]))).toContain(
      'nmr-no-integrals',
    );
  });
  test('a conversion without hydrogens', () => {
    const entered = spectrum(ETHYL_BENZOATE, {}, [
      { shift_ppm: 10, integral: 1, assignment: { to: 'startingMaterial' } },
    ]);
    const found = judgeNmr(entered, { product: product.ethylBenzoate, others: [] });
    expect(found.diagnostics.map((one) => one.code)).toEqual(['nmr-conversion-hydrogens']);
  });
  test('a product without a structure', () => {
    const { smiles: _, ...substance } = product.ethylBenzoate.substance;
    const of = { ...product.ethylBenzoate, substance };
    expect(codes(ETHYL_BENZOATE, of)).toEqual(['nmr-no-structure']);
    expect(judgeNmr(spectrum(ETHYL_BENZOATE), { others: [] }).diagnostics).toHaveLength(1);
  });
});

test('every statement keeps to the form', () => {
  const { statements } = judgeNmr(spectrum([...ASPIRIN, [2.1, 0.2, 's'], [5.9, 0.1, 's']]), {
    product: product.aspirin,
    others: [subject('salicylic acid', 'O=C(O)c1ccccc1O', 'startingMaterial')],
  });
  expect(new Set(statements.map((one) => one.id)).size).toBe(statements.length);
  for (const one of statements) {
    expect(one.limits).not.toBe('');
    expect(one.says).not.toMatch(/confirmed|!/);
    expect(one.technique).toBe('nmr');
  }
});

test('the schema takes what is judged and refuses what is not known', () => {
  const good = spectrum(ASPIRIN);
  expect(nmrEnteredSchema.parse(good)).toEqual(good);
  expect(nmrEnteredSchema.safeParse({ ...good, solvent: 'water' }).success).toBe(false);
  expect(nmrEnteredSchema.safeParse({ ...good, mass: 1 }).success).toBe(false);
});

test('whatever is entered, it is judged without an error, in finite numbers', () => {
  const signal = fc.record(
    {
      shift_ppm: fc.double({ min: -1, max: 14, noNaN: true }),
      to_ppm: fc.double({ min: -1, max: 14, noNaN: true }),
      integral: fc.double({ min: 0, max: 1e6, noNaN: true }),
      multiplicity: fc.constantFrom('s', 'd', 't', 'q', 'm', 'br s', 'dddt', '?', ''),
      assignment: fc.record(
        {
          to: fc.constantFrom(
            ...([
              'product',
              'isomer',
              'startingMaterial',
              'solvent',
              'standard',
              'impurity',
            ] as const),
          ),
          of: fc.constantFrom('acetone', 'x'),
          hydrogens: fc.integer({ min: 1, max: 9 }),
        },
        { requiredKeys: ['to'] },
      ),
    },
    { requiredKeys: ['shift_ppm'] },
  );
  const of = fc.constantFrom(product.aspirin, product.estragole, subject('chlorine', 'ClCl'));
  fc.assert(
    fc.property(fc.array(signal, { maxLength: 14 }), of, (signals, one) => {
      const entered = { technique: 'nmr', solvent: 'CDCl3', signals } as const;
      expect(nmrEnteredSchema.safeParse(entered).success).toBe(true);
      const { statements } = judgeNmr(entered, { product: one, others: [product.salicylicAcid] });
      for (const each of statements) {
        expect(`${each.measured}${each.says}`).not.toMatch(/NaN|undefined|Infinity/);
        const share = each.purity?.share ?? 0;
        expect(share >= 0 && share <= 1 + 1e-9).toBe(true);
      }
    }),
    { numRuns: Number(process.env['FUZZ_RUNS'] ?? 60) },
  );
});
