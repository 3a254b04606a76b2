import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findInstrument, standardUncertaintyOfReading } from '../../quantity/instrument.ts';
import { laboratoryInstruments } from '../../quantity/laboratory.ts';
import { netKey } from '../../enact/actuals.ts';
import { materialBalance } from '../balance/balance.ts';
import { question, yieldOf } from '../testing/course.ts';
import type { Line } from '../testing/course.ts';
import { benzoicAcid, crops, gotBack, twoStages, weighedTwice } from '../testing/courses.ts';
import { judge } from './judge.ts';
import { drawYield } from './monte-carlo.ts';
import { yieldModel, yieldReport } from './yield.ts';

// M(sodium benzoate) = 7·12.011 + 5·1.008 + 22.990 + 2·15.999 = 144.105 g/mol
// M(benzoic acid)    = 7·12.011 + 6·1.008 + 2·15.999          = 122.123 g/mol
// M(methyl benzoate) = 8·12.011 + 8·1.008 + 2·15.999          = 136.150 g/mol
const BENZOATE = 144.105;
const ACID = 122.123;
const ESTER = 136.15;
const balance = { instrument: 'balance 1 (0.0001 g)' };
const u_g = standardUncertaintyOfReading(findInstrument('balance-0.1mg')!, 50).u;

const WEIGHED: Line[] = [
  ['charge', '1', '1.1', 1.4382, balance],
  ['tare', '4', 'dish', 44.2188, balance],
  ['gross', '4', 'dish', 45.3391, balance],
];

describe('the yield of one step', () => {
  it('counts the net on what was weighed in', () => {
    const report = yieldOf(benzoicAcid(), WEIGHED);
    const [product] = report.products;
    // theory: 1.4382/144.105·122.123 = 1.21882 g; net: 45.3391 - 44.2188 = 1.1203 g
    const theory = (1.4382 / BENZOATE) * ACID;
    expect(product!.theory!.mass_g).toBeCloseTo(theory, 4);
    expect(product!.net_g).toBe(1.1203);
    expect(product!.yield!.percent).toBeCloseTo((100 * 1.1203) / theory, 2);
    expect(product!.theory!.basis.name).toBe('sodium benzoate');
    expect(report.findings).toEqual([]);
  });

  it('has the uncertainty of the weighings, each counted as it was made', () => {
    const { products } = yieldOf(benzoicAcid(), WEIGHED);
    const { percent, u_percent, U_percent } = products[0]!.yield!;
    // Two readings for the net; a mass read on a tared balance is two readings as well.
    const net = (Math.SQRT2 * u_g) / 1.1203;
    const charge = (Math.SQRT2 * u_g) / 1.4382;
    expect(u_percent).toBeCloseTo(percent * Math.hypot(net, charge), 3);
    expect(U_percent).toBeCloseTo(2 * u_percent, 12);
    const shares = products[0]!.budget.map((line) => line.share);
    expect(shares.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
    expect(products[0]!.budget.at(-1)!.what).toBe('molar masses');
    expect(products[0]!.budget.at(-1)!.share).toBeLessThan(0.01);
  });

  it('says it in a sentence', () => {
    expect(yieldOf(benzoicAcid(), WEIGHED).sentence.replaceAll('\u202f', ' ')).toMatch(
      /^1\.1203 g of benzoic acid: 91\.9\d? ± 0\.\d+ % of theory \(k = 2\)\.$/,
    );
  });

  it('takes a net that was written down', () => {
    const report = yieldOf(benzoicAcid(), [
      WEIGHED[0]!,
      ['net', '4', 'dish', 1.12, { decimals: 4, ...balance }],
    ]);
    expect(report.products[0]!.net_g).toBe(1.12);
    expect(report.sentence).toContain('1.1200');
  });

  it('takes what nobody measured as written, and says so', () => {
    const report = yieldOf(benzoicAcid(), WEIGHED.slice(1));
    const { percent, u_percent } = report.products[0]!.yield!;
    expect(percent).toBeCloseTo((100 * 1.1203) / ((1.44 / BENZOATE) * ACID), 2);
    // 1.44 g: half a unit of the last digit, 0.005 g, rectangular
    const charge = 0.005 / Math.sqrt(3) / 1.44;
    expect(u_percent / percent).toBeCloseTo(Math.hypot(charge, (Math.SQRT2 * u_g) / 1.1203), 5);
    expect(report.assumed.join(' ')).toMatch(/sodium benzoate, step 1: as written, not measured/);
  });

  it('finds the limiting reagent in what was weighed, not in the plan', () => {
    // 5.2 mL of 2 M acid is 10.4 mmol; the plan's 1.44 g is 9.99 mmol, 1.6200 g is 11.24 mmol.
    const acid: Line = ['charge', '2', '2.1', 5.2, { unit: 'mL', decimals: 2 }];
    const report = yieldOf(benzoicAcid('5.2 mL'), [
      ['charge', '1', '1.1', 1.62, balance],
      acid,
      ...WEIGHED.slice(1),
    ]);
    expect(report.products[0]!.theory!.basis.name).toBe('hydrogen chloride');
    expect(report.products[0]!.theory!.amount_mmol).toBeCloseTo(10.4, 2);
    expect(report.findings.map((each) => each.code)).toEqual(['limiting-differs', 'off-target']);
    expect(report.products[0]!.budget[0]!.what).toMatch(/2 M hydrochloric acid/);
  });

  it('counts on the basis that the document declares', () => {
    const report = yieldOf(benzoicAcid('6.0 mL', { basis: 'hydrogen chloride' }), WEIGHED);
    // 6.0 mL of 2 M acid: 12.0 mmol, 1.4655 g of benzoic acid
    expect(report.products[0]!.theory!.mass_g).toBeCloseTo(0.012 * ACID, 3);
    expect(report.assumed.join(' ')).toMatch(/counted on hydrogen chloride, as the document says/);
  });
});

describe('several weighings', () => {
  it('multiplies the stages, and lets the intermediate cancel', () => {
    const tare: Line = ['tare', '4', 'flask', 40, { decimals: 4, ...balance }];
    const lines: Line[] = [
      WEIGHED[0]!,
      tare,
      ['gross', '4', 'flask', 41.1, { decimals: 4, ...balance }],
      ['gross', '6', 'flask', 40.98, { decimals: 4, ...balance }],
    ];
    const report = yieldOf(twoStages(), lines);
    const [ester, acid] = report.products;
    // acid: 1.1000 g of 1.21882 g; ester: 0.9800 g of 1.1000/122.123·136.150 = 1.22634 g
    expect(acid!.yield!.percent).toBeCloseTo(90.25, 2);
    expect(acid!.entries).toMatchObject([{ step: '4', kind: 'intermediate' }]);
    expect(ester!.theory!.mass_g).toBeCloseTo((1.1 / ACID) * ESTER, 4);
    expect(ester!.yield!.percent).toBeCloseTo(79.91, 2);
    expect(ester!.theory!.basis.name).toBe('benzoic acid');
    const overall = report.overall!;
    expect(overall.percent).toBeCloseTo(0.9025 * 79.91, 1);
    expect(overall.basis!.name).toBe('sodium benzoate');
    // In the product Y1·Y2 the net of the acid cancels: what is left is net 2 on the benzoate.
    const relative = Math.hypot((Math.SQRT2 * u_g) / 0.98, (Math.SQRT2 * u_g) / 1.4382);
    expect(overall.u_percent).toBeCloseTo(overall.percent * relative, 3);
  });

  it('correlates a tare that is used twice', () => {
    const { products, model } = judge(
      question(twoStages(), [
        WEIGHED[0]!,
        ['tare', '4', 'flask', 40, balance],
        ['gross', '4', 'flask', 41.1, balance],
        ['gross', '6', 'flask', 40.98, balance],
      ]),
    );
    const ester = products.find((each) => each.name === 'methyl benzoate')!;
    // Y = n2/(c·n1), n1 = g1 - t, n2 = g2 - t:  dY/dt = (n2/n1 - 1)/(c·n1) = -0.1091/(c·1.1)
    const slope = (0.98 / 1.1 - 1) / ((ESTER / ACID) * 1.1);
    const tare = ester.fraction!.parts.get('e2')!;
    expect(tare / model.inputs.get('e2')!.u).toBeCloseTo(slope, 4);
    expect(Math.abs(tare)).toBeLessThan(Math.abs(ester.fraction!.parts.get('e4')!) / 5);
  });

  it('keeps crude and crops apart', () => {
    const report = yieldOf(crops(), [
      ['charge', '1', '1.1', 1.4382, balance],
      ['net', '3', 'dish', 1.2011, balance],
      ['net', '5', 'dish 1', 0.85, balance],
      ['net', '6', 'dish 2', 0.15, balance],
    ]);
    const [product] = report.products;
    expect(product!.entries.map((each) => each.kind)).toEqual(['crude', 'isolated', 'crop']);
    expect(product!.net_g).toBeCloseTo(1, 9);
    // 1.000 g of 1.21882 g
    expect(product!.yield!.percent).toBeCloseTo(82.05, 2);
    expect(report.overall).toBeNull();
  });

  it('lets a later weighing in the same vessel stand for an earlier one', () => {
    const report = yieldOf(benzoicAcid(), [
      ...WEIGHED,
      ['gross', '4', 'dish', 45.3389, { n: 2, ...balance }],
    ]);
    expect(report.products[0]!.net_g).toBe(1.1201);
    expect(report.findings).toEqual([]);
  });
});

describe('dried on and weighed again', () => {
  it('counts the last weighing, and compares it with the one before', () => {
    // On paper both are "step 4"; the weighing is its second sentence, 4b.
    const report = yieldOf(weighedTwice(), [
      ['charge', '1', '1.1', 1.4382, balance],
      ['tare', '3', 'dish', 44.2188, balance],
      ['gross', '3', 'dish', 45.4391, balance],
      ['gross', '4', 'dish', 45.3391, balance],
    ]);
    expect(report.products[0]!.entries.map((each) => [each.step, each.kind])).toEqual([
      ['3', 'earlier'],
      ['4b', 'isolated'],
    ]);
    expect(report.products[0]!.net_g).toBe(1.1203);
    expect(report.findings).toMatchObject([{ code: 'not-constant' }]);
  });
});

describe('what is got back and not made', () => {
  it('is counted on what was charged, and is no stage of its own', () => {
    const of = gotBack();
    const report = yieldOf(of, [
      ['charge', '1', '1.1', 1.003, balance],
      ['net', '4', 'dish', 0.851, balance],
    ]);
    // 0.851/1.003 = 84.85 %
    expect(report.products[0]).toMatchObject({ recovered: true, net_g: 0.851 });
    expect(report.products[0]!.yield!.percent).toBeCloseTo(84.85, 2);
    expect(report.sentence).toMatch(/% recovered/);
    expect(report.overall).toBeNull();
    const found = of.reenact({
      charges: new Map([['1.1', { mass_g: 1.003 }]]),
      nets: new Map([[netKey('4', 'dish'), 0.851]]),
    });
    const bar = materialBalance(of.experiment, found)!;
    expect(bar.segments.map((each) => each.kind)).not.toContain('used on');
    expect(bar.segments.reduce((sum, each) => sum + each.mass_g, 0)).toBeCloseTo(1.003, 6);
  });
});

describe('findings', () => {
  const tare: Line = ['tare', '4', 'dish', 44.2188, balance];
  const gross = (value: number, n = 1): Line => ['gross', '4', 'dish', value, { n, ...balance }];
  const TABLE: [name: string, lines: Line[], codes: string[]][] = [
    ['all is well', [WEIGHED[0]!, tare, gross(45.3391)], []],
    ['wet', [WEIGHED[0]!, tare, gross(45.9)], ['yield-over-100']],
    // 1.4382 g gives 1.21882 g: 1.2190 g is 100.01 %, and no more than U above.
    ['hardly more than all', [WEIGHED[0]!, tare, gross(45.4378)], []],
    ['tare and gross exchanged', [tare, gross(43.1)], ['tare-above-gross']],
    ['no tare', [gross(45.3391)], ['tare-missing']],
    ['not weighed', [WEIGHED[0]!], ['not-weighed']],
    ['losing solvent', [tare, gross(45.4, 1), gross(45.3391, 2)], ['not-constant']],
    ['constant', [tare, gross(45.34, 1), gross(45.3391, 2)], []],
    ['gaining', [tare, gross(45.3, 1), gross(45.3391, 2)], ['not-constant']],
    ['too little to weigh', [tare, gross(44.2196)], ['below-balance']],
    [
      'much too little taken',
      [['charge', '1', '1.1', 1.3, balance], tare, gross(45.2)],
      ['off-target'],
    ],
    ['nothing recorded', [], ['not-weighed']],
  ];
  it.each(TABLE)('%s', (_name, lines, codes) => {
    const { findings } = yieldOf(benzoicAcid(), lines);
    expect(findings.map((each) => each.code)).toEqual(codes);
    for (const each of findings) expect(each.hint).not.toBe('');
  });

  it('says how far off, and which way the mass drifts', () => {
    const off = yieldOf(benzoicAcid(), [['charge', '1', '1.1', 1.3, balance], tare, gross(45.2)]);
    expect(off.findings[0]!.message.replaceAll('\u202f', ' ')).toBe(
      '1.3 g of sodium benzoate was taken at step 1: 9.7 % less than the 1.44 g written.',
    );
    const drift = yieldOf(benzoicAcid(), [tare, gross(45.4, 1), gross(45.3391, 2)]);
    expect(drift.findings[0]!.message).toContain('0.0609');
    expect(drift.findings[0]!.hint).toMatch(/losing solvent/);
  });
});

describe('Monte Carlo', () => {
  it('agrees with linear propagation', () => {
    const asked = question(benzoicAcid(), WEIGHED);
    const draws = yieldModel(asked)!;
    const { mean, u, low, high } = drawYield(draws, 200_000, 7);
    const { percent, u_percent } = yieldOf(benzoicAcid(), WEIGHED).products[0]!.yield!;
    expect(mean).toBeCloseTo(percent, 2);
    expect(u / u_percent).toBeCloseTo(1, 1);
    expect((high - low) / (4 * u_percent)).toBeCloseTo(0.98, 1);
  });

  it('sees that two reactants which tie make the theory smaller than either', () => {
    // Both 10.0 mmol with wide volumes: the least of the two is less than 10 on the average.
    const lines: Line[] = [
      ['charge', '1', '1.1', (10.0 * BENZOATE) / 1000, balance],
      ['charge', '2', '2.1', 5, { unit: 'mL' }],
      ...WEIGHED.slice(1),
    ];
    const draws = yieldModel(question(benzoicAcid('5 mL'), lines))!;
    const linear = yieldOf(benzoicAcid('5 mL'), lines).products[0]!.yield!;
    const drawn = drawYield(draws, 200_000, 3);
    // 5 mL ± 0.5 rectangular: the acid is short in half of the draws, by 0.25/5 on the average.
    expect(drawn.mean / linear.percent).toBeGreaterThan(1.02);
  });
});

describe("the laboratory's own instruments", () => {
  const fine = {
    id: 'balance-3f2a91',
    name: 'Balance by the window',
    readability_g: 0.0001,
    repeatability_g: 0.0001,
    linearity_g: 0.0002,
    capacity_g: 200,
  };
  const lines = (instrument: string): Line[] => [
    ['charge', '1', '1.1', 1.44, { instrument }],
    ['net', '4', 'dish', 0.9, { instrument }],
  ];

  it('take the place of a balance guessed from the decimals', () => {
    const asked = question(benzoicAcid(), lines('balance-3f2a91'));
    const instruments = laboratoryInstruments({ balances: [fine], glassware: [] });
    const guessed = yieldReport(asked);
    const known = yieldReport({ ...asked, instruments });
    expect(guessed.assumed.join()).toContain('No known instrument is named');
    expect(known.assumed.join()).not.toContain('No known instrument is named');
    const [before, after] = [guessed, known].map((each) => each.products[0]!.yield!);
    expect(after!.percent).toBe(before!.percent);
    expect(after!.U_percent).toBeLessThan(before!.U_percent / 5);
  });
});

describe('what always holds', () => {
  const nets = fc.double({ min: 0, max: 3, noNaN: true });
  it('a report is plain data, for any masses', () => {
    const both = [benzoicAcid(), crops()];
    fc.assert(
      fc.property(nets, nets, nets, fc.boolean(), (a, b, c, which) => {
        const report = yieldOf(both[which ? 0 : 1]!, [
          ['charge', '1', '1.1', a],
          ['net', which ? '4' : '3', 'dish', b],
          ['net', '5', 'dish 1', c],
        ]);
        expect(JSON.parse(JSON.stringify(report))).toEqual(report);
      }),
      { numRuns: 100 },
    );
  });

  it('the pieces of the material balance add up to the theory', () => {
    const of = crops();
    fc.assert(
      fc.property(nets, nets, nets, (a, b, c) => {
        const found = of.reenact({
          charges: new Map(),
          nets: new Map([
            [netKey('3', 'dish'), a],
            [netKey('5', 'dish 1'), b],
            [netKey('6', 'dish 2'), c],
          ]),
        });
        const bar = materialBalance(of.experiment, found)!;
        const sum = bar.segments.reduce((total, each) => total + each.mass_g, 0);
        expect(sum).toBeCloseTo(bar.theory_g, 7);
      }),
      { numRuns: 100 },
    );
  });
});
