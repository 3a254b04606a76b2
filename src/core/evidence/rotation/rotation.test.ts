import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { tableWith } from '../../chemistry/substance.ts';
import type { Agreement, Judged } from '../statement.ts';
import type { Subject, Subjects } from '../subject.ts';
import { judgeRotation } from './judge.ts';
import type { RotationEntered } from './schema.ts';
import { rotationEnteredSchema } from './schema.ts';
import { enantiomerShares, enantiomericExcess, specificRotation } from './specific.ts';

const table = tableWith();
/** The literature value is not what is checked here; −50 is a round number. */
function menthol(specificRotation_ = -50): Subjects {
  const product: Subject = {
    role: 'product',
    substance: table.byName.get('(-)-menthol')!,
    literature: {
      specificRotation: specificRotation_,
      sources: { specificRotation: 'a handbook' },
    },
  };
  return { product, others: [] };
}

type Solution = Extract<RotationEntered['sample'], { kind: 'solution' }>;
const solution = (more: Partial<Solution> = {}): Solution => ({
  kind: 'solution',
  concentration: 10,
  unit: 'g/100 mL',
  ...more,
});
const entered = (more: Partial<RotationEntered> = {}): RotationEntered => ({
  technique: 'rotation',
  observed_deg: -5,
  length_dm: 1,
  sample: solution(),
  T_C: 20,
  ...more,
});
const of = (judged: Judged, id: string) => judged.statements.find((one) => one.id === id);
const codes = (judged: Judged) => judged.diagnostics.map(({ code }) => code);

interface Scenario {
  readonly name: string;
  readonly entered: Partial<RotationEntered>;
  readonly identity: Agreement;
  readonly excess: Agreement | undefined;
  readonly codes: readonly string[];
}

const SCENARIOS: readonly Scenario[] = [
  { name: 'as it should be', entered: {}, identity: 'agrees', excess: 'agrees', codes: [] },
  {
    name: 'the blank is taken off',
    entered: { observed_deg: -4.5, blank_deg: 0.5 },
    identity: 'agrees',
    excess: 'agrees',
    codes: [],
  },
  {
    name: 'half of it',
    entered: { observed_deg: -2.5 },
    identity: 'cannotTell',
    excess: 'disagrees',
    codes: [],
  },
  {
    name: 'the other enantiomer',
    entered: { observed_deg: 5 },
    identity: 'disagrees',
    excess: 'disagrees',
    codes: [],
  },
  {
    name: 'racemic',
    entered: { observed_deg: 0.02 },
    identity: 'disagrees',
    excess: 'disagrees',
    codes: [],
  },
  {
    name: 'too dilute to be seen',
    entered: { observed_deg: -0.04, sample: solution({ concentration: 0.1 }) },
    identity: 'cannotTell',
    excess: undefined,
    codes: [],
  },
  {
    name: 'more than pure',
    entered: { observed_deg: -6.5 },
    identity: 'disagrees',
    excess: undefined,
    codes: ['rotation-above-pure'],
  },
  {
    name: 'g/100 mL for g/mL',
    entered: { observed_deg: -5, sample: solution({ concentration: 0.1 }) },
    identity: 'disagrees',
    excess: undefined,
    codes: ['rotation-unit'],
  },
  {
    name: 'another wavelength',
    entered: { wavelength_nm: 546 },
    identity: 'cannotTell',
    excess: undefined,
    codes: [],
  },
  {
    name: 'another solvent',
    entered: { sample: solution({ solvent: 'ethanol' }), literature: { solvent: 'chloroform' } },
    identity: 'cannotTell',
    excess: undefined,
    codes: [],
  },
  {
    name: 'the same solvent',
    entered: { sample: solution({ solvent: 'Ethanol' }), literature: { solvent: 'ethanol' } },
    identity: 'agrees',
    excess: 'agrees',
    codes: [],
  },
];

describe('the product', () => {
  it.each(SCENARIOS)('$name', (scenario) => {
    const judged = judgeRotation(entered(scenario.entered), menthol());
    expect(of(judged, 'rotation')!.agreement).toBe(scenario.identity);
    expect(of(judged, 'rotation-excess')?.agreement).toBe(scenario.excess);
    expect(codes(judged)).toEqual(scenario.codes);
    for (const one of judged.statements) {
      expect(one.purity).toBeUndefined();
      expect(`${one.says} ${one.limits}`).not.toMatch(/[Cc]onfirm|!|NaN|undefined/);
    }
  });
  it('gives excess and ratio with an uncertainty', () => {
    const one = of(judgeRotation(entered({ observed_deg: -2.5 }), menthol()), 'rotation-excess')!;
    expect(one.measured).toMatch(/^50\.0 ± 2\.8 % of \(-\)-menthol$/);
    expect(one.derivation!.at(1)!.value).toBe('75.0 : 25.0');
  });
  it('names the mirror image where the sign is the other one', () => {
    const one = of(judgeRotation(entered({ observed_deg: 4 }), menthol()), 'rotation-excess')!;
    expect(one.says).toContain('90 parts of the enantiomer of (-)-menthol');
  });
  it('without a literature value says what would help', () => {
    const judged = judgeRotation(entered(), { others: [] });
    expect(judged.statements).toHaveLength(1);
    expect(judged.statements[0]).toMatchObject({ agreement: 'cannotTell', expected: '' });
  });
});

describe('what cannot be', () => {
  const wrong: readonly (readonly [string, Partial<RotationEntered>])[] = [
    ['a specific rotation for an angle', { observed_deg: 250 }],
    ['a tube in cm', { length_dm: 10 }],
    ['no tube', { length_dm: 0 }],
    ['a negative concentration', { sample: solution({ concentration: -1 }) }],
    ['g/L for g/mL', { sample: solution({ concentration: 100, unit: 'g/mL' }) }],
    ['a neat liquid without a density', { sample: { kind: 'neat', density_g_mL: 0 } }],
  ];
  it.each(wrong)('%s', (_, more) => {
    const judged = judgeRotation(entered(more), menthol());
    expect(judged.statements).toEqual([]);
    expect(codes(judged)).toEqual(['rotation-implausible']);
  });
  it('the schema is strict', () => {
    expect(rotationEnteredSchema.safeParse(entered()).success).toBe(true);
    expect(rotationEnteredSchema.safeParse({ ...entered(), lamp: 'Na' }).success).toBe(false);
    expect(rotationEnteredSchema.safeParse(entered({ observed_deg: NaN })).success).toBe(false);
  });
});

describe('properties', () => {
  const positive = fc.double({ min: 0.5, max: 2, noNaN: true });
  const pure = fc.oneof(
    fc.double({ min: 10, max: 200, noNaN: true }),
    fc.double({ min: -200, max: -10, noNaN: true }),
  );
  it('the excess of a mixture is the difference of its shares', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 100, noNaN: true }), pure, (share, alpha) => {
        const mixed = (alpha * share - alpha * (100 - share)) / 100;
        const excess = enantiomericExcess(mixed, alpha);
        expect(excess).toBeCloseTo(2 * share - 100, 6);
        const [major, minor] = enantiomerShares(excess);
        expect(major + minor).toBeCloseTo(100, 9);
        expect(major).toBeCloseTo(Math.max(share, 100 - share), 6);
      }),
    );
  });
  it('mirror images have mirror rotations and one ratio', () => {
    fc.assert(
      fc.property(fc.double({ min: -200, max: 200, noNaN: true }), pure, (alpha, of_) => {
        expect(enantiomericExcess(-alpha, of_)).toBeCloseTo(-enantiomericExcess(alpha, of_), 9);
        expect(enantiomericExcess(alpha, -of_)).toBeCloseTo(-enantiomericExcess(alpha, of_), 9);
        const excess = enantiomericExcess(alpha, of_);
        expect(enantiomerShares(-excess)).toEqual(enantiomerShares(excess));
      }),
    );
  });
  it('judging the literature value agrees, in any tube at any strength', () => {
    fc.assert(
      fc.property(positive, fc.double({ min: 5, max: 50, noNaN: true }), pure, (l, c, alpha) => {
        const observed_deg = (alpha * l * c) / 100;
        fc.pre(Math.abs(observed_deg) < 180);
        const judged = judgeRotation(
          entered({ observed_deg, length_dm: l, sample: solution({ concentration: c }) }),
          menthol(alpha),
        );
        expect(of(judged, 'rotation')!.agreement).toBe('agrees');
        expect(of(judged, 'rotation-excess')!.agreement).toBe('agrees');
      }),
    );
  });
  it('rises with the angle, falls with tube and concentration', () => {
    fc.assert(
      fc.property(positive, positive, positive, (angle, l, c) => {
        expect(specificRotation(angle + 0.1, l, c)).toBeGreaterThan(specificRotation(angle, l, c));
        expect(specificRotation(angle, l + 0.1, c)).toBeLessThan(specificRotation(angle, l, c));
        expect(specificRotation(angle, l, c + 0.1)).toBeLessThan(specificRotation(angle, l, c));
      }),
    );
  });
});

it('knows a solvent by its short name', () => {
  const judged = judgeRotation(
    entered({
      observed_deg: -5,
      sample: { kind: 'solution', concentration: 10, unit: 'g/100 mL', solvent: 'EtOH' },
      literature: { solvent: 'ethanol' },
    }),
    menthol(-50),
  );
  expect(of(judged, 'rotation')!.agreement).toBe('agrees');
});
