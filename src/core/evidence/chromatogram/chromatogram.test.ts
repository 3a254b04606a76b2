import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { makeSubstance } from '../../chemistry/substance.ts';
import { standardUncertainty } from '../../quantity/uncertain.ts';
import { exact } from '../../quantity/uncertain.ts';
import type { Statement } from '../statement.ts';
import type { Subject, SubjectRole, Subjects } from '../subject.ts';
import { plateNumber, resolution, separationFactor, symmetryFactor } from './figures.ts';
import { judgeChromatogram } from './judge.ts';
import { namePeaks } from './named.ts';
import { effectiveCarbons } from './response.ts';
import { chromatogramEnteredSchema } from './schema.ts';
import type { ChromatogramEntered, ChromatogramPeak } from './schema.ts';
import { areaShare, excess } from './shares.ts';

function subject(role: SubjectRole, name: string, smiles: string): Subject {
  const made = makeSubstance({ name, smiles });
  if (!made.ok) throw new Error(made.message);
  return { role, substance: made.substance, literature: {} };
}

const SUBJECTS: Subjects = {
  product: subject('product', '4-methylcyclohexanone', 'CC1CCC(=O)CC1'),
  others: [subject('startingMaterial', '4-methylcyclohexanol', 'CC1CCC(O)CC1')],
};

const STANDARDS = [
  { name: '4-methylcyclohexanone', retention_min: 5.2 },
  { name: '4-methylcyclohexanol', retention_min: 4.8 },
];

function run(
  peaks: readonly ChromatogramPeak[],
  rest: Partial<ChromatogramEntered> = {},
): ChromatogramEntered {
  return {
    technique: 'chromatogram',
    method: 'gc',
    detector: 'fid',
    standards: STANDARDS,
    peaks,
    ...rest,
  };
}

const peak = (retention_min: number, area: number, rest: Partial<ChromatogramPeak> = {}) => ({
  retention_min,
  area,
  ...rest,
});

const brief = (statements: readonly Statement[]) =>
  statements.map(({ id, agreement }) => `${id}: ${agreement}`);

function judged(entered: ChromatogramEntered) {
  expect(chromatogramEnteredSchema.safeParse(entered).success).toBe(true);
  return judgeChromatogram(entered, SUBJECTS);
}

const find = (entered: ChromatogramEntered, id: string): Statement => {
  const found = judged(entered).statements.find((statement) => statement.id === id);
  expect(found, `no statement ${id}`).toBeDefined();
  return found!;
};

const SCENARIOS: readonly [string, ChromatogramEntered, readonly string[]][] = [
  [
    'pure product',
    run([peak(2, 1e6, { role: 'solvent' }), peak(5.21, 1000)]),
    ['retention-time: agrees', 'area-share: agrees', 'starting-material-1: agrees'],
  ],
  [
    'starting material left',
    run([peak(5.21, 900), peak(4.79, 100)]),
    [
      'retention-time: agrees',
      'area-share: disagrees',
      'mass-share: disagrees',
      'starting-material-1: disagrees',
      'conversion-1: cannotTell',
    ],
  ],
  [
    'nothing where the product comes',
    run([peak(4.8, 900), peak(7, 100)]),
    ['retention-time: disagrees', 'starting-material-1: disagrees', 'unnamed-peaks: disagrees'],
  ],
  [
    'a stranger beside the product',
    run([peak(5.2, 950), peak(7, 50)]),
    [
      'retention-time: agrees',
      'area-share: disagrees',
      'starting-material-1: agrees',
      'unnamed-peaks: disagrees',
    ],
  ],
  [
    'two standards in one window',
    run([peak(5, 900)], { window_min: 0.3 }),
    ['retention-time: cannotTell', 'starting-material-1: cannotTell'],
  ],
];

describe('judging a chromatogram', () => {
  test.each(SCENARIOS)('%s', (_, entered, expected) => {
    const { statements } = judged(entered);
    expect(brief(statements)).toEqual(expected);
    for (const { limits } of statements) expect(limits).not.toBe('');
  });

  test('an area share is never a mass share', () => {
    const { statements } = judged(run([peak(5.2, 900), peak(4.8, 100)]));
    expect(statements.map(({ purity }) => purity?.basis).filter(Boolean)).toEqual(['area']);
    expect(find(run([peak(5.2, 900), peak(4.8, 100)]), 'area-share').purity?.share).toBe(0.9);
  });

  test('u of an area share by hand: √2·x(1 − x)·u for two peaks', () => {
    const entered = run([peak(5.2, 900), peak(4.8, 100)], { areaU: 0.02 });
    const { counted } = namePeaks(entered);
    const share = areaShare(entered, [counted.find(({ index }) => index === 0)!], counted);
    expect(standardUncertainty(share)).toBeCloseTo(Math.SQRT2 * 0.9 * 0.1 * 0.02, 12);
  });

  test('mass and mole shares from effective carbons by hand', () => {
    // Ketone 7 − 1 = 6 of 112.172; alcohol 7 − 0.75 = 6.25 of 114.188
    const entered = run([peak(5.2, 600), peak(4.8, 625)]);
    const ketone = 600 / (6 / 112.172);
    const alcohol = 625 / (6.25 / 114.188);
    const percent = (100 * ketone) / (ketone + alcohol);
    expect(find(entered, 'mass-share').measured).toMatch(new RegExp(`^${percent.toFixed(1)} ± `));
    // 600/6 and 625/6.25 moles: half converted
    expect(find(entered, 'conversion-1').measured).toMatch(/^50\.0 ± .* %$/);
  });

  test('given response factors come first', () => {
    const entered = run([peak(5.2, 500), peak(4.8, 250)], {
      responses: [
        { name: '4-methylcyclohexanone', factor: 1 },
        { name: '4-methylcyclohexanol', factor: 0.5 },
      ],
    });
    expect(find(entered, 'mass-share').measured).toMatch(/^50\.00 ± /);
  });

  test('internal standard: a mass share with its uncertainty', () => {
    const entered = run([peak(5.2, 950), peak(8, 1000, { role: 'internalStandard' })], {
      internalStandard: {
        name: 'dodecane',
        standard_mg: 100,
        sample_mg: 110,
        massU_mg: 0.1,
        analyte: '4-methylcyclohexanone',
        calibration: [{ analyte_mg: 100, standard_mg: 100, analyteArea: 950, standardArea: 1000 }],
      },
    });
    const { purity } = find(entered, 'internal-standard');
    expect(purity).toMatchObject({ basis: 'mass', kind: 'measured', of: '4-methylcyclohexanone' });
    expect(purity!.share).toBeCloseTo(100 / 110, 12);
    // Of both areas: 0.1 % of the largest peak of the sample, 950
    const baselines = [0.001, 0.00095];
    const relative = Math.hypot(0.02, 0.001 * Math.sqrt(3), 0.1 / 110, ...baselines);
    expect(purity!.u).toBeCloseTo((relative * 100) / 110, 9);
  });

  test('enantiomeric excess, its direction and its u', () => {
    const entered = run(
      [
        peak(10, 950, { name: '(R)-1-phenylethanol' }),
        peak(11, 50, { name: '(S)-1-phenylethanol' }),
      ],
      {
        pairs: [
          { kind: 'enantiomers', first: '(S)-1-phenylethanol', second: '(R)-1-phenylethanol' },
        ],
      },
    );
    // 2·2·0.95·0.05·√(0.01² + 0.001² + 0.01² + (0.95/50)²)
    expect(find(entered, 'pair-1').measured).toBe('ee 90.00 ± 0.45 % of (R)-1-phenylethanol');
  });

  test('a ratio of isomers, both shares to the same place', () => {
    const entered = run([peak(5, 900, { name: 'cis' }), peak(6, 300, { name: 'trans' })], {
      pairs: [{ kind: 'isomers', first: 'cis', second: 'trans' }],
    });
    // 2·√2·x(1 − x)·u = 0.53 %, and the baseline of both
    expect(find(entered, 'pair-1').measured).toBe('75.00 : 25.00 (± 0.54)');
  });

  test.each([
    ['parted', 0.1, 'agrees'],
    ['overlapping', 0.3, 'disagrees'],
  ])('separation: %s', (_, halfWidth_min, agreement) => {
    const entered = run([peak(5.2, 900, { halfWidth_min }), peak(4.8, 100, { halfWidth_min })]);
    expect(find(entered, 'separation').agreement).toBe(agreement);
  });

  test.each([
    ['negative area', run([peak(5.2, 900), peak(4, -3)]), 'peak-area-negative'],
    [
      'before the dead time',
      run([peak(5.2, 900), peak(1, 3)], { dead_min: 1.5 }),
      'peak-before-dead-time',
    ],
    ['named twice', run([peak(5.19, 900), peak(5.22, 90)]), 'peak-named-twice'],
    ['nothing to count', run([peak(1, 9)], { from_min: 3 }), 'no-peak-counted'],
    ['product unknown', run([peak(9, 9)]), 'product-peak-unknown'],
    [
      'pair missing',
      run([peak(5.2, 900)], { pairs: [{ kind: 'isomers', first: 'cis', second: 'trans' }] }),
      'pair-peak-missing',
    ],
    [
      'foot odd',
      run([peak(5.2, 9, { foot: { width_min: 0.1, front_min: 0.2 } })]),
      'peak-foot-odd',
    ],
    [
      'lopsided',
      run([peak(5.2, 9, { foot: { width_min: 0.5, front_min: 0.1 } })]),
      'peak-asymmetric',
    ],
    [
      'internal standard missing',
      run([peak(5.2, 9)], {
        internalStandard: {
          name: 'dodecane',
          standard_mg: 1,
          sample_mg: 1,
          analyte: '4-methylcyclohexanone',
          calibration: [{ analyte_mg: 1, standard_mg: 1, analyteArea: 1, standardArea: 1 }],
        },
      }),
      'internal-standard-missing',
    ],
    [
      'more than there was',
      run([peak(5.2, 900), peak(8, 300, { role: 'internalStandard' })], {
        internalStandard: {
          name: 'dodecane',
          standard_mg: 100,
          sample_mg: 100,
          analyte: '4-methylcyclohexanone',
          calibration: [{ analyte_mg: 1, standard_mg: 1, analyteArea: 1, standardArea: 1 }],
        },
      }),
      'internal-standard-above-100',
    ],
  ] as [string, ChromatogramEntered, string][])('%s', (_, entered, code) => {
    expect(judged(entered).diagnostics.map((one) => one.code)).toContain(code);
  });
});

describe('effective carbons', () => {
  test.each([
    ['heptane', 'CCCCCCC', 7],
    ['1-hexene', 'C=CCCCC', 5.9],
    ['phenylacetylene', 'C#Cc1ccccc1', 8.6],
    ['ethanol', 'CCO', 1.5],
    ['2-propanol', 'CC(C)O', 2.25],
    ['tert-butanol', 'CC(C)(C)O', 3.75],
    ['acetone', 'CC(C)=O', 2],
    ['acetic acid', 'CC(O)=O', 1],
    ['ethyl acetate', 'CCOC(C)=O', 2.4],
    ['diethyl ether', 'CCOCC', 3],
    ['acetonitrile', 'CC#N', 1.3],
    ['formic acid', 'OC=O', 0],
    ['chlorobenzene', 'Clc1ccccc1', undefined],
    ['acetanilide', 'CC(=O)Nc1ccccc1', undefined],
    ['pyridine', 'c1ccncc1', undefined],
    ['nonsense', 'C(', undefined],
  ])('%s', (_, smiles, expected) => {
    if (expected === undefined) expect(effectiveCarbons(smiles)).toBeUndefined();
    else expect(effectiveCarbons(smiles)).toBeCloseTo(expected, 12);
  });
});

const area = fc.double({ min: 1, max: 1e6, noNaN: true });
const peakList = fc
  .uniqueArray(fc.integer({ min: 100, max: 3000 }), { minLength: 2, maxLength: 8 })
  .chain((times) =>
    fc.tuple(
      fc.constant(times),
      fc.array(area, { minLength: times.length, maxLength: times.length }),
    ),
  )
  .map(([times, areas]) => times.map((t, i) => peak(t / 100, areas[i]!)));

describe('what must always hold', () => {
  test('the unit of the areas changes nothing', () => {
    fc.assert(
      fc.property(peakList, fc.double({ min: 0.001, max: 1000, noNaN: true }), (peaks, k) => {
        const scaled = peaks.map((one) => ({ ...one, area: k * one.area }));
        const texts = (list: readonly ChromatogramPeak[]) =>
          brief(judgeChromatogram(run(list), SUBJECTS).statements);
        const shares = (list: readonly ChromatogramPeak[]) => {
          const entered = run(list);
          const { counted } = namePeaks(entered);
          return counted.map((one) => areaShare(entered, [one], counted).value);
        };
        expect(texts(scaled)).toEqual(texts(peaks));
        shares(scaled).forEach((share, i) => expect(share).toBeCloseTo(shares(peaks)[i]!, 9));
      }),
    );
  });

  test('the order of the peaks changes nothing', () => {
    fc.assert(
      fc.property(peakList, (peaks) => {
        const said = (list: readonly ChromatogramPeak[]) =>
          judgeChromatogram(run(list), SUBJECTS).statements.map(({ id, measured, says }) => [
            id,
            measured,
            says,
          ]);
        expect(said(peaks.toReversed())).toEqual(said(peaks));
      }),
    );
  });

  test('shares add up to 1, and ee lies between −1 and 1', () => {
    fc.assert(
      fc.property(peakList, area, area, (peaks, a, b) => {
        const entered = run(peaks);
        const { counted } = namePeaks(entered);
        const sum = counted.reduce((all, one) => all + areaShare(entered, [one], counted).value, 0);
        expect(sum).toBeCloseTo(1, 9);
        const ee = excess(exact(a), exact(b)).value;
        expect(Math.abs(ee)).toBeLessThanOrEqual(1);
        expect(excess(exact(b), exact(a)).value).toBeCloseTo(-ee, 12);
      }),
    );
  });

  test('figures of a peak do not depend on the unit of time', () => {
    const width = fc.double({ min: 0.01, max: 1, noNaN: true });
    fc.assert(
      fc.property(width, width, fc.double({ min: 0.1, max: 60, noNaN: true }), (w1, w2, k) => {
        const [a, b] = [
          { retention_min: 5, halfWidth_min: w1, foot: { width_min: 3 * w1, front_min: w1 } },
          { retention_min: 6, halfWidth_min: w2 },
        ];
        const times = (p: { retention_min: number; halfWidth_min: number }) => ({
          retention_min: k * p.retention_min,
          halfWidth_min: k * p.halfWidth_min,
        });
        expect(resolution(times(a), times(b))).toBeCloseTo(resolution(a, b)!, 9);
        expect(resolution(b, a)).toBe(resolution(a, b));
        expect(plateNumber(times(a))! / plateNumber(a)!).toBeCloseTo(1, 9);
        expect(symmetryFactor(a)).toBeCloseTo(1.5, 9);
        expect(separationFactor(times(a), times(b), k)).toBeCloseTo(5 / 4, 9);
      }),
    );
  });
});
