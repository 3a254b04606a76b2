import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { tableWith } from '../../chemistry/substance.ts';
import type { Agreement, Judged } from '../statement.ts';
import type { Literature, Subject, Subjects } from '../subject.ts';
import { indexAt, shareByIndex, waterIndex } from './index-at.ts';
import { judgeRefraction } from './judge.ts';
import type { RefractionEntered } from './schema.ts';
import { refractionEnteredSchema } from './schema.ts';

const table = tableWith();
const subject = (name: string, literature: Literature): Subject => ({
  role: 'product',
  substance: table.byName.get(name)!,
  literature,
});
const toluene = subject('toluene', {
  refractiveIndex: 1.4961,
  refractiveIndexT_C: 20,
  sources: { refractiveIndex: 'a handbook' },
});
const hexane: Subject = {
  ...subject('hexane', { refractiveIndex: 1.3749, refractiveIndexT_C: 20 }),
  role: 'solvent',
};
const subjects: Subjects = { product: toluene, others: [] };
const entered = (more: Partial<RefractionEntered>): RefractionEntered => ({
  technique: 'refractiveIndex',
  index: 1.4961,
  T_C: 20,
  ...more,
});
const of = (judged: Judged, id: string) => judged.statements.find((one) => one.id === id)!;

const SCENARIOS: readonly (readonly [string, Partial<RefractionEntered>, Agreement])[] = [
  ['as it should be', {}, 'agrees'],
  ['at 25 °C, brought to 20 °C', { index: 1.4939, T_C: 25 }, 'agrees'],
  ['at 25 °C, uncorrected it would be wrong', { index: 1.4961, T_C: 25 }, 'disagrees'],
  ['corrected by the instrument', { index: 1.496, T_C: 25, compensated: true }, 'agrees'],
  ['with solvent in it', { index: 1.484 }, 'disagrees'],
  [
    'an instrument that reads high, checked with water',
    { index: 1.4981, water: { index: 1.335, T_C: 20 } },
    'agrees',
  ],
  ['the same, unchecked', { index: 1.4981 }, 'disagrees'],
];

describe('the product', () => {
  it.each(SCENARIOS)('%s', (_, more, agreement) => {
    const judged = judgeRefraction(entered(more), subjects);
    const one = of(judged, 'refractive-index');
    expect(one.agreement).toBe(agreement);
    expect(judged.diagnostics.map(({ code }) => code)).toEqual(
      more.compensated === true ? ['compensated-index'] : [],
    );
    expect(`${one.says} ${one.limits}`).not.toMatch(/[Cc]onfirm|!|NaN|undefined/);
  });
  it('the proportion with a known solvent, rough and never a purity', () => {
    const judged = judgeRefraction(entered({ index: 1.484 }), { ...subjects, others: [hexane] });
    const one = of(judged, 'refractive-mixture-hexane');
    // (1.484 − 1.3749)/(1.4961 − 1.3749) = 0.900, by hand.
    expect(one.measured).toMatch(/^90 ± 10 %$/);
    expect(one.purity).toBeUndefined();
    expect(one.agreement).toBe('cannotTell');
  });
  it.each([
    [1.3331, 'agrees', /as it should/],
    [1.335, 'disagrees', /0\.0020 high; the reading of the sample is corrected/],
    [1.34, 'disagrees', /0\.0070 high, too far/],
  ] as const)('water at %s: the instrument %s', (index, agreement, says) => {
    const one = of(
      judgeRefraction(entered({ water: { index, T_C: 20 } }), subjects),
      'refractive-instrument',
    );
    expect(one).toMatchObject({ about: 'instrument', agreement });
    expect(one.says).toMatch(says);
  });
  it('no proportion for a pure product, nor outside the two', () => {
    for (const index of [1.4961, 1.51])
      expect(
        judgeRefraction(entered({ index }), { ...subjects, others: [hexane] }).statements,
      ).toHaveLength(1);
  });
  it('without a literature value says what would help', () => {
    const [one] = judgeRefraction(entered({}), { others: [] }).statements;
    expect(one).toMatchObject({ agreement: 'cannotTell', expected: '' });
  });
});

describe('what cannot be', () => {
  it.each([0.9, -1.4, 14961])('an index of %s', (index) => {
    const judged = judgeRefraction(entered({ index }), subjects);
    expect(judged.statements).toEqual([]);
    expect(judged.diagnostics.map(({ code }) => code)).toEqual(['index-implausible']);
  });
  it('kelvin for °C', () => {
    const judged = judgeRefraction(entered({ T_C: 293 }), subjects);
    expect(judged.diagnostics[0]!.code).toBe('index-implausible');
  });
  it('an instrument that is far off is not corrected', () => {
    const judged = judgeRefraction(entered({ water: { index: 1.35, T_C: 20 } }), subjects);
    expect(judged.diagnostics.map(({ code }) => code)).toEqual(['refractometer-off']);
    expect(of(judged, 'refractive-index').agreement).toBe('agrees');
  });
  it('water too warm for the table', () => {
    const judged = judgeRefraction(entered({ water: { index: 1.32, T_C: 70 } }), subjects);
    expect(judged.diagnostics.map(({ code }) => code)).toEqual(['water-check-left-out']);
  });
  it('the schema is strict', () => {
    expect(refractionEnteredSchema.safeParse(entered({})).success).toBe(true);
    expect(refractionEnteredSchema.safeParse({ ...entered({}), line: 'D' }).success).toBe(false);
  });
});

describe('properties', () => {
  const n = fc.double({ min: 1.3, max: 1.7, noNaN: true });
  const T = fc.double({ min: 10, max: 40, noNaN: true });
  it('there and back; falls as it gets warmer', () => {
    fc.assert(
      fc.property(n, T, T, (index, a, b) => {
        expect(indexAt(indexAt(index, a, b), b, a)).toBeCloseTo(index, 12);
        expect(indexAt(index, a, Math.max(a, b))).toBeLessThanOrEqual(index);
      }),
    );
  });
  it('judging the literature value agrees at any temperature', () => {
    fc.assert(
      fc.property(n, T, (index, T_C) => {
        const product = subject('toluene', { refractiveIndex: index, refractiveIndexT_C: T_C });
        const judged = judgeRefraction(entered({ index, T_C }), { product, others: [] });
        expect(of(judged, 'refractive-index').agreement).toBe('agrees');
      }),
    );
  });
  it('the shares of two liquids add up to one', () => {
    fc.assert(
      fc.property(n, n, n, (x, a, b) => {
        fc.pre(Math.abs(a - b) > 1e-3);
        expect(shareByIndex(x, a, b) + shareByIndex(x, b, a)).toBeCloseTo(1, 6);
      }),
    );
  });
  it('water falls with temperature, and is known only within its table', () => {
    expect(waterIndex(5)).toBeUndefined();
    expect(waterIndex(60)).toBeUndefined();
    for (let t = 10; t < 40; t++) expect(waterIndex(t + 1)!).toBeLessThan(waterIndex(t)!);
  });
});

describe('an instrument that corrects the temperature by itself', () => {
  const warm = { T_C: 28, compensated: true };

  it('was made for sugar: what it leaves out is uncertainty, not a difference', () => {
    // Corrected by 0.00015 a degree where toluene needs more: 8 °C × 0.0003
    const judged = judgeRefraction(entered({ ...warm, index: 1.4961 - 0.0024 }), subjects);
    expect(of(judged, 'refractive-index').agreement).toBe('agrees');
    const plain = judgeRefraction(entered({ index: 1.4961 - 0.0024 }), subjects);
    expect(of(plain, 'refractive-index').agreement).toBe('disagrees');
  });

  it('shows water as it is at 20 °C, and is right', () => {
    const water = { index: 1.333, T_C: 28 };
    const judged = judgeRefraction(entered({ ...warm, index: 1.4961, water }), subjects);
    expect(of(judged, 'refractive-instrument').agreement).toBe('agrees');
    expect(of(judged, 'refractive-index').measured).toMatch(/^1\.496/);
  });
});

it('what a little solvent explains is no strong word against the product', () => {
  const weightAt = (index: number) =>
    of(judgeRefraction(entered({ index }), subjects), 'refractive-index').weight;
  expect(weightAt(1.4935)).toBe('weak');
  expect(weightAt(1.44)).toBe('moderate');
});
