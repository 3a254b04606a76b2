import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { makeSubstance } from '../../chemistry/substance.ts';
import { measured, standardUncertainty } from '../../quantity/uncertain.ts';
import type { Subject, SubjectRole, Subjects } from '../subject.ts';
import { judgeTitration } from './judge.ts';
import { meanOf } from './mean.ts';
import {
  equivalentMass_g_mol,
  hydroxideMass_g_mol,
  hydroxideValue_mg_g,
  reckon,
} from './reckon.ts';
import { titrationEnteredSchema } from './schema.ts';
import type { TitrationEntered } from './schema.ts';

function subject(role: SubjectRole, name: string, smiles: string): Subject {
  const made = makeSubstance({ name, smiles });
  if (!made.ok) throw new Error(made.message);
  return { role, substance: made.substance, literature: {} };
}

const ASPIRIN: Subjects = {
  product: subject('product', 'acetylsalicylic acid', 'CC(=O)Oc1ccccc1C(O)=O'),
  others: [subject('startingMaterial', 'salicylic acid', 'OC(=O)c1ccccc1O')],
};
const ESTER: Subjects = {
  product: subject('product', 'ethyl benzoate', 'CCOC(=O)c1ccccc1'),
  others: [subject('startingMaterial', 'benzoic acid', 'OC(=O)c1ccccc1')],
};

type Runs = TitrationEntered['runs'];

function titration(runs: Runs, rest: Partial<TitrationEntered> = {}): TitrationEntered {
  return {
    technique: 'titration',
    kind: 'acid',
    titrant: 'sodium hydroxide',
    strength: { by: 'given', concentration_mol_L: 0.1, u_mol_L: 0.0001 },
    equivalents: 1,
    burette: 'burette-50-A',
    balance: 'balance-0.1mg',
    runs,
    ...rest,
  };
}

/** What a share of pure substance takes, in mL of 0.1 M. */
const takes = (subjects: Subjects, sample_g: number, share: number): number =>
  (10_000 * share * sample_g) / subjects.product!.substance.molarMass_g_mol!;

function judged(entered: TitrationEntered, subjects: Subjects = ASPIRIN) {
  expect(titrationEnteredSchema.safeParse(entered).success).toBe(true);
  return judgeTitration(entered, subjects);
}

const brief = (entered: TitrationEntered, subjects?: Subjects) =>
  judged(entered, subjects).statements.map(({ id, agreement }) => `${id}: ${agreement}`);

const of = (share: number): Runs =>
  [0.4, 0.41].map((sample_g) => ({ sample_g, titre_mL: takes(ASPIRIN, sample_g, share) }));

const SCENARIOS: readonly [string, TitrationEntered, readonly string[], Subjects?][] = [
  [
    'pure acid',
    titration(of(1)),
    ['content: agrees', 'equivalent-mass: agrees', 'acid-value: agrees'],
  ],
  [
    'a tenth of something inert',
    titration(of(0.9)),
    ['content: disagrees', 'equivalent-mass: cannotTell', 'acid-value: cannotTell'],
  ],
  [
    'more acid than can be',
    titration(of(1.1)),
    ['content: disagrees', 'equivalent-mass: disagrees', 'acid-value: disagrees'],
  ],
  [
    'starting acid left in an ester',
    titration([{ sample_g: 2, titre_mL: 5 }], { analyte: 'benzoic acid' }),
    ['content: disagrees', 'acid-value: cannotTell'],
    ESTER,
  ],
  [
    'saponification of a pure ester',
    titration([{ sample_g: 0.15018, titre_mL: 15 }], {
      kind: 'saponification',
      blanks: [{ titre_mL: 25 }],
    }),
    ['content: agrees', 'equivalent-mass: agrees', 'saponification-value: agrees'],
    ESTER,
  ],
];

describe('judging a titration', () => {
  test.each(SCENARIOS)('%s', (_, entered, expected, subjects) => {
    expect(brief(entered, subjects)).toEqual(expected);
    for (const { limits } of judged(entered, subjects).statements) expect(limits).not.toBe('');
  });

  test('what reacts as another substance is no purity of the product', () => {
    const entered = titration([{ sample_g: 2, titre_mL: 5 }], { analyte: 'benzoic acid' });
    const [content] = judged(entered, ESTER).statements;
    expect(content!.about).toBe('startingMaterial');
    expect(content!.purity).toMatchObject({ basis: 'mass', of: 'benzoic acid' });
    // 0.5 mmol of 122.12 g/mol in 2 g
    expect(content!.purity!.share).toBeCloseTo(0.03053, 4);
  });

  test('a share above 1 makes no figure', () => {
    const [content] = judged(titration(of(1.1))).statements;
    expect(content!.purity).toBeUndefined();
  });

  test('uncertainty of one run by hand', () => {
    const { result } = reckon(titration([{ sample_g: 0.4, start_mL: 1, end_mL: 23.2 }]));
    // Class A 50 mL: ±0.05 triangular; readability 0.05, half of it rectangular, twice; a drop of
    // 0.05 mL rectangular. Balance: twice (0.2 mg/√3, 0.1 mg, 0.05 mg/√3).
    const volume = Math.hypot(
      0.05 / Math.sqrt(6),
      (Math.SQRT2 * 0.025) / Math.sqrt(3),
      0.05 / Math.sqrt(3),
    );
    const mass = Math.SQRT2 * Math.hypot(0.0002 / Math.sqrt(3), 0.0001, 0.00005 / Math.sqrt(3));
    const relative = Math.hypot(volume / 22.2, mass / 0.4, 0.001);
    const taken = result!.taken_mmol_g;
    expect(taken.value).toBeCloseTo((0.1 * 22.2) / 0.4, 12);
    expect(standardUncertainty(taken) / taken.value).toBeCloseTo(relative, 9);
  });

  test('standardised against potassium hydrogen phthalate', () => {
    const entered = titration([{ sample_g: 0.4, titre_mL: 20 }], {
      strength: {
        by: 'standardised',
        standard: 'potassium hydrogen phthalate',
        molarMass_g_mol: 204.22,
        equivalents: 1,
        runs: [
          { standard_g: 0.40844, titre_mL: 20 },
          { standard_g: 0.40844, titre_mL: 20.02 },
        ],
      },
    });
    const c = reckon(entered).result!.concentration_mol_L;
    expect(c.value).toBeCloseTo((0.1 + 2 / 20.02) / 2, 9);
    expect(standardUncertainty(c)).toBeGreaterThan(0);
  });

  test('scatter beyond the readings widens the mean, agreement does not', () => {
    const u = (first: number, second: number) =>
      standardUncertainty(
        meanOf([measured('a', first, 0.1), measured('b', second, 0.1)], 'scatter'),
      );
    expect(u(5, 5)).toBeCloseTo(0.1 / Math.SQRT2, 12);
    // s²/n of 5 and 6 is 0.25
    expect(u(5, 6)).toBeCloseTo(0.5, 12);
  });

  const one = { sample_g: 0.4, titre_mL: 22 };
  test.each([
    ['single', titration([one]), 'titration-single'],
    ['not concordant', titration([one, { ...one, titre_mL: 22.5 }]), 'titres-not-concordant'],
    ['left out', titration([one, { ...one, leftOut: true }]), 'titre-left-out'],
    [
      'as told',
      titration([one], { strength: { by: 'given', concentration_mol_L: 0.1 } }),
      'titrant-not-standardised',
    ],
    ['no titre', titration([one, { sample_g: 0.4, end_mL: 4 }]), 'titre-missing'],
    ['all left out', titration([{ ...one, leftOut: true }]), 'titration-no-run'],
    ['beyond the blank', titration([one], { blanks: [{ titre_mL: 30 }] }), 'titre-beyond-blank'],
    ['nothing', titration([{ sample_g: 1, titre_mL: 0 }]), 'titre-of-nothing'],
    ['above the burette', titration([{ ...one, titre_mL: 60 }]), 'titre-above-burette'],
    ['no blank', titration([one], { kind: 'saponification' }), 'titration-blank-missing'],
    ['unknown burette', titration([one], { burette: 'balance-1mg' }), 'titration-tool-unknown'],
    ['unknown substance', titration([one], { analyte: 'oil' }), 'titration-no-molar-mass'],
    [
      'no strength',
      titration([one], {
        strength: {
          by: 'standardised',
          standard: 'KHP',
          molarMass_g_mol: 204.22,
          equivalents: 1,
          runs: [{ standard_g: 0.4 }],
        },
      }),
      'titrant-strength-missing',
    ],
  ] as [string, TitrationEntered, string][])('%s', (_, entered, code) => {
    expect(judged(entered).diagnostics.map((found) => found.code)).toContain(code);
  });
});

describe('what must always hold', () => {
  const runs = fc.array(
    fc.record({
      sample_g: fc.double({ min: 0.1, max: 5, noNaN: true }),
      titre_mL: fc.double({ min: 1, max: 45, noNaN: true }),
    }),
    { minLength: 1, maxLength: 6 },
  );

  test('equivalent mass times acid value is 1000 M(KOH)', () => {
    fc.assert(
      fc.property(runs, (list) => {
        const { taken_mmol_g } = reckon(titration(list)).result!;
        const product =
          equivalentMass_g_mol(taken_mmol_g).value * hydroxideValue_mg_g(taken_mmol_g).value;
        expect(product / (1000 * hydroxideMass_g_mol().value)).toBeCloseTo(1, 9);
      }),
    );
  });

  test('order of the runs changes nothing; a blank of nothing changes no value', () => {
    fc.assert(
      fc.property(runs, (list) => {
        const value = (entered: TitrationEntered) => reckon(entered).result!.taken_mmol_g;
        const plain = value(titration(list));
        const back = value(titration(list.toReversed()));
        expect(back.value).toBeCloseTo(plain.value, 9);
        expect(standardUncertainty(back)).toBeCloseTo(standardUncertainty(plain), 9);
        const blank = value(titration(list, { blanks: [{ titre_mL: 0 }] }));
        expect(blank.value).toBeCloseTo(plain.value, 9);
        expect(standardUncertainty(blank)).toBeGreaterThan(standardUncertainty(plain));
      }),
    );
  });

  test('twice the sample with twice the titre gives the same content', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 2, noNaN: true }),
        fc.double({ min: 2, max: 20, noNaN: true }),
        (sample_g, titre_mL) => {
          const value = (k: number) =>
            reckon(titration([{ sample_g: k * sample_g, titre_mL: k * titre_mL }])).result!
              .taken_mmol_g.value;
          expect(value(2) / value(1)).toBeCloseTo(1, 9);
        },
      ),
    );
  });
});
