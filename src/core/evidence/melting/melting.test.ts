import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { tableWith } from '../../chemistry/substance.ts';
import { standardUncertainty } from '../../quantity/uncertain.ts';
import type { Agreement, Judged } from '../statement.ts';
import type { Subject, Subjects } from '../subject.ts';
import { judgeMelting } from './judge.ts';
import type { MeltingEntered } from './schema.ts';
import { meltingEnteredSchema } from './schema.ts';
import { correctReading } from './thermometer.ts';

const table = tableWith();

function subject(name: string, range?: readonly [number, number]): Subject {
  const substance = table.byName.get(name)!;
  return {
    role: 'product',
    substance,
    literature:
      range === undefined
        ? {}
        : { meltingRange_C: range, sources: { meltingRange_C: 'a handbook' } },
  };
}

const benzoic: Subjects = { product: subject('benzoic acid', [122, 123]), others: [] };

function entered(more: Partial<MeltingEntered>): MeltingEntered {
  return { technique: 'meltingRange', sample: 'product', low_C: 121, high_C: 122.5, ...more };
}

const of = (judged: Judged, id: string) => judged.statements.find((one) => one.id === id)!;
const codes = (judged: Judged) => judged.diagnostics.map(({ code }) => code);

interface Scenario {
  readonly name: string;
  readonly entered: Partial<MeltingEntered>;
  readonly identity: Agreement;
  readonly purity: Agreement;
  readonly says: RegExp;
}

const SCENARIOS: readonly Scenario[] = [
  {
    name: 'sharp and where it should be',
    entered: {},
    identity: 'agrees',
    purity: 'agrees',
    says: /melts where benzoic acid does/,
  },
  {
    name: 'broad and low: wet or impure',
    entered: { low_C: 112, high_C: 118 },
    identity: 'cannotTell',
    purity: 'disagrees',
    says: /4\.0 °C below .*wet or impure benzoic acid, or another/,
  },
  {
    name: 'sharp and low: not an ordinary impurity',
    entered: { low_C: 113.5, high_C: 114.5 },
    identity: 'disagrees',
    purity: 'cannotTell',
    says: /sharply, but 7\.5 °C below.*eutectic/,
  },
  {
    name: 'high: the thermometer first',
    entered: { low_C: 130, high_C: 131 },
    identity: 'disagrees',
    purity: 'cannotTell',
    says: /8\.0 °C above.*check the thermometer/,
  },
  {
    name: 'far below, and broad',
    entered: { low_C: 60, high_C: 75 },
    identity: 'disagrees',
    purity: 'disagrees',
    says: /further than an impurity/,
  },
  {
    name: 'in place, but broad',
    entered: { low_C: 116, high_C: 122.5 },
    identity: 'agrees',
    purity: 'disagrees',
    says: /ends melting where/,
  },
  {
    name: 'a little wide is no verdict',
    entered: { low_C: 119.8, high_C: 122.4 },
    identity: 'agrees',
    purity: 'cannotTell',
    says: /melts where/,
  },
  {
    name: 'with decomposition no purity is read from it',
    entered: { decomposes: true },
    identity: 'agrees',
    purity: 'cannotTell',
    says: /melts where/,
  },
];

describe('the product alone', () => {
  it.each(SCENARIOS)('$name', (scenario) => {
    const judged = judgeMelting(entered(scenario.entered), benzoic);
    expect(of(judged, 'melting-range').agreement).toBe(scenario.identity);
    expect(of(judged, 'melting-purity').agreement).toBe(scenario.purity);
    expect(of(judged, 'melting-range').says).toMatch(scenario.says);
    for (const one of judged.statements) {
      expect(one.limits).not.toBe('');
      expect(`${one.says} ${one.limits}`).not.toMatch(/[Cc]onfirm|!|NaN|undefined/);
    }
  });

  it('gives a bound in moles, never in mass, for a lowered range', () => {
    const { purity } = of(
      judgeMelting(entered({ low_C: 112, high_C: 118 }), benzoic),
      'melting-purity',
    );
    expect(purity).toMatchObject({ basis: 'mole', kind: 'atMost', u: 0, of: 'benzoic acid' });
    // ΔT = 5 K of benzoic acid: x = ΔT·ΔH/(R·T²) = 5 × 18020/(8.314 × 395.5²) = 0.069, by hand.
    expect(purity!.share).toBeGreaterThan(1 - 0.069);
    expect(purity!.share).toBeLessThanOrEqual(1);
  });

  it('names no figure beyond a fifth, nor without an enthalpy of fusion', () => {
    expect(
      of(judgeMelting(entered({ low_C: 85, high_C: 100 }), benzoic), 'melting-purity').purity,
    ).toBeUndefined();
    const vanillin = { product: subject('vanillin', [81, 83]), others: [] };
    const purity = of(judgeMelting(entered({ low_C: 72, high_C: 78 }), vanillin), 'melting-purity');
    expect(purity.agreement).toBe('disagrees');
    expect(purity.purity).toBeUndefined();
    expect(purity.limits).toContain('for want of an enthalpy of fusion');
  });

  it('names other substances of the experiment that melt there', () => {
    const subjects: Subjects = {
      ...benzoic,
      others: [{ ...subject('2-naphthol', [121, 123]), role: 'startingMaterial' }],
    };
    expect(of(judgeMelting(entered({}), subjects), 'melting-range').limits).toContain(
      '2-naphthol, the starting material',
    );
  });

  it('falls back on the table of substances, and says its source', () => {
    const judged = judgeMelting(entered({}), { product: subject('benzoic acid'), others: [] });
    expect(of(judged, 'melting-range').expected).toMatch(/^122\.3 °C \(CRC Handbook/);
  });

  it('has nothing to compare with: says what would help', () => {
    const judged = judgeMelting(entered({}), { others: [] });
    expect(judged.statements).toHaveLength(1);
    expect(judged.statements[0]).toMatchObject({ agreement: 'cannotTell', expected: '' });
    expect(judged.statements[0]!.limits).toContain('literature value');
  });
});

describe('thermometer', () => {
  const calibration = [
    { measured_C: 80, true_C: 81 },
    { measured_C: 121, true_C: 122.4 },
  ];
  it('interpolates between two standards and keeps the nearest error beyond', () => {
    const at = (t: number) => correctReading(t, { calibration }, 'end').T.value;
    expect(at(80)).toBeCloseTo(81, 9);
    expect(at(100.5)).toBeCloseTo(101.7, 9);
    expect(at(60)).toBeCloseTo(61, 9);
    expect(at(150)).toBeCloseTo(151.4, 9);
  });
  it('knows less far from the last standard', () => {
    const u = (t: number) => standardUncertainty(correctReading(t, { calibration }, 'end').T);
    expect(u(100)).toBeLessThan(u(150));
  });
  it('corrects the emergent stem: 100 degrees out, 200 °C against 50 °C', () => {
    const { T, steps } = correctReading(200, { stem: { emergent_C: 100, stem_C: 50 } }, 'end');
    expect(T.value).toBeCloseTo(202.4, 9);
    expect(steps[0]!.value).toBe('+2.40 °C');
  });
  it('leaves the stem out where standards hold it, and says so', () => {
    const thermometer = { calibration, stem: { emergent_C: 100, stem_C: 30 } };
    expect(correctReading(121, thermometer, 'end').T.value).toBeCloseTo(122.4, 9);
    expect(codes(judgeMelting(entered({ thermometer }), benzoic))).toContain('stem-not-applied');
  });
  it('a calibration brings a low reading into place', () => {
    const thermometer = { calibration: [{ measured_C: 111, true_C: 114.3 }] };
    const low = { low_C: 118, high_C: 119 };
    expect(of(judgeMelting(entered(low), benzoic), 'melting-range').agreement).toBe('disagrees');
    const judged = judgeMelting(entered({ ...low, thermometer }), benzoic);
    expect(of(judged, 'melting-range').agreement).toBe('agrees');
    expect(of(judged, 'melting-range').measured).toBe('121.3–122.3 °C, corrected');
  });
  it('rises with the reading, whatever the standards', () => {
    const temperature = fc.double({ min: -50, max: 300, noNaN: true });
    const points = fc.array(fc.record({ measured_C: temperature, true_C: temperature }), {
      minLength: 1,
      maxLength: 6,
    });
    fc.assert(
      fc.property(points, temperature, temperature, (standards, a, b) => {
        const at = (t: number) => correctReading(t, { calibration: standards }, 'end').T.value;
        expect(at(Math.min(a, b))).toBeLessThanOrEqual(at(Math.max(a, b)) + 1e-6);
      }),
    );
  });
});

describe('mixed with a known substance', () => {
  const mixed = (more: Partial<MeltingEntered>): Judged =>
    judgeMelting(
      entered({
        sample: 'mixed',
        mixedWith: { substance: 'benzoic acid', range: { low_C: 121, high_C: 122 } },
        alone: { low_C: 120.5, high_C: 121.5 },
        ...more,
      }),
      benzoic,
    );
  const cases: readonly (readonly [string, number, number, Agreement])[] = [
    ['not lowered', 120.5, 121.5, 'agrees'],
    ['within the readings', 120, 121, 'agrees'],
    ['lowered and wide', 95, 110, 'disagrees'],
    ['only wide', 110, 121.5, 'disagrees'],
    ['raised', 129, 130, 'cannotTell'],
  ];
  it.each(cases)('%s', (_, low_C, high_C, agreement) => {
    const [one] = mixed({ low_C, high_C }).statements;
    expect(one!.agreement).toBe(agreement);
    expect(one!.limits).toContain('racemates');
    expect(one!.weight).toBe(agreement === 'cannotTell' ? 'weak' : 'strong');
  });
  it('weighs less against the literature than against a range of the same day', () => {
    const [one] = judgeMelting(
      entered({ sample: 'mixed', mixedWith: { substance: 'benzoic acid' } }),
      benzoic,
    ).statements;
    expect(one).toMatchObject({ agreement: 'agrees', weight: 'moderate' });
  });
  it('not lowered by the starting material: the sample is likely that', () => {
    const [one] = mixed({
      low_C: 120.5,
      high_C: 121.5,
      mixedWith: { substance: '2-naphthol', range: { low_C: 120.5, high_C: 122 } },
    }).statements;
    expect(one!.substance).toBe('2-naphthol');
    expect(one!.says).toContain('likely 2-naphthol itself');
  });
});

describe('a known sample of the product', () => {
  it.each([
    [121, 122, 'agrees'],
    [117, 118, 'disagrees'],
  ] as const)('%s–%s °C: %s', (low_C, high_C, agreement) => {
    const [one] = judgeMelting(entered({ sample: 'authentic', low_C, high_C }), benzoic).statements;
    expect(one).toMatchObject({ about: 'instrument', agreement });
  });
});

describe('what cannot be', () => {
  const wrong: readonly (readonly [string, Partial<MeltingEntered>, string, number])[] = [
    ['1200 °C', { high_C: 1200 }, 'melting-implausible', 0],
    ['below absolute zero', { low_C: -400 }, 'melting-implausible', 0],
    ['wider than any range', { low_C: 40, high_C: 122 }, 'melting-implausible', 0],
    ['the wrong way round', { low_C: 122.5, high_C: 121 }, 'range-reversed', 2],
    ['heated too fast', { heatingRate_C_min: 10 }, 'heated-too-fast', 2],
    [
      'standards that contradict',
      {
        thermometer: {
          calibration: [
            { measured_C: 80, true_C: 90 },
            { measured_C: 100, true_C: 85 },
          ],
        },
      },
      'calibration-contradicts',
      2,
    ],
    [
      'a standard that is the wrong one',
      { thermometer: { calibration: [{ measured_C: 100, true_C: 122 }] } },
      'calibration-far-off',
      2,
    ],
    [
      'a standard far away',
      { thermometer: { calibration: [{ measured_C: 48, true_C: 48.2 }] } },
      'calibration-far-away',
      2,
    ],
  ];
  it.each(wrong)('%s', (_, more, code, statements) => {
    const judged = judgeMelting(entered(more), benzoic);
    expect(codes(judged)).toContain(code);
    expect(judged.statements).toHaveLength(statements);
  });
  it('the schema is strict and bounded', () => {
    expect(meltingEnteredSchema.safeParse(entered({})).success).toBe(true);
    expect(meltingEnteredSchema.safeParse({ ...entered({}), colour: 'white' }).success).toBe(false);
    expect(meltingEnteredSchema.safeParse(entered({ high_C: Infinity })).success).toBe(false);
    expect(meltingEnteredSchema.safeParse(entered({ high_C: 1e6 })).success).toBe(false);
  });
});

describe('properties', () => {
  it('judging the literature value agrees, wherever it lies', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -80, max: 400, noNaN: true }),
        fc.double({ min: 0, max: 2, noNaN: true }),
        (low, width) => {
          const product = subject('benzoic acid', [low, low + width]);
          const judged = judgeMelting(entered({ low_C: low, high_C: low + width }), {
            product,
            others: [],
          });
          expect(of(judged, 'melting-range').agreement).toBe('agrees');
          expect(of(judged, 'melting-purity').agreement).toBe('agrees');
        },
      ),
    );
  });
  it('a deeper depression never leaves a purer bound', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 3, max: 12, noNaN: true }),
        fc.double({ min: 0, max: 4, noNaN: true }),
        (depth, more) => {
          const share = (d: number) =>
            of(
              judgeMelting(entered({ low_C: 116 - d, high_C: 122 - d }), benzoic),
              'melting-purity',
            ).purity?.share ?? 0;
          expect(share(depth + more)).toBeLessThanOrEqual(share(depth) + 1e-12);
        },
      ),
    );
  });
});
