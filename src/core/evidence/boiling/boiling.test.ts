import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { tableWith } from '../../chemistry/substance.ts';
import type { Agreement, Judged } from '../statement.ts';
import type { Literature, Subject, Subjects } from '../subject.ts';
import { azeotropes } from './azeotrope.ts';
import { judgeBoiling } from './judge.ts';
import { associationOf, boilingAt, phiOf, toKPa } from './pressure.ts';
import type { BoilingEntered } from './schema.ts';
import { boilingEnteredSchema } from './schema.ts';

const table = tableWith();
const subject = (name: string, literature: Literature = {}): Subject => ({
  role: 'product',
  substance: table.byName.get(name)!,
  literature,
});
const entered = (more: Partial<BoilingEntered>): BoilingEntered => ({
  technique: 'boilingRange',
  low_C: 82,
  high_C: 83.5,
  pressure: { value: 101.3, unit: 'kPa' },
  ...more,
});
const of = (judged: Judged, id: string) => judged.statements.find((one) => one.id === id)!;
const cyclohexene: Subjects = {
  product: subject('cyclohexene', {
    boilingPoint_C: 83,
    sources: { boilingPoint_C: 'a handbook' },
  }),
  others: [{ ...subject('cyclohexanol'), role: 'startingMaterial' }],
};

interface Scenario {
  readonly name: string;
  readonly entered: Partial<BoilingEntered>;
  readonly identity: Agreement;
  readonly purity: Agreement | undefined;
  readonly says: RegExp;
}

const SCENARIOS: readonly Scenario[] = [
  {
    name: 'where it should be',
    entered: {},
    identity: 'agrees',
    purity: 'agrees',
    says: /boils where cyclohexene/,
  },
  {
    name: 'high up: 80 kPa, brought back',
    entered: { low_C: 75, high_C: 76.5, pressure: { value: 800, unit: 'mbar' } },
    identity: 'agrees',
    purity: 'agrees',
    says: /boils where/,
  },
  {
    name: 'low: wet, its azeotrope',
    entered: { low_C: 70, high_C: 72 },
    identity: 'disagrees',
    purity: 'agrees',
    says: /11\.0 °C below cyclohexene.*bulb/,
  },
  {
    name: 'high',
    entered: { low_C: 95, high_C: 96 },
    identity: 'disagrees',
    purity: 'agrees',
    says: /12\.0 °C above/,
  },
  {
    name: 'wide: a mixture',
    entered: { low_C: 72, high_C: 92 },
    identity: 'cannotTell',
    purity: 'disagrees',
    says: /too wide to speak/,
  },
  {
    name: 'a single microscale value has no width',
    entered: { low_C: 82, high_C: 82, method: 'microscale' },
    identity: 'agrees',
    purity: undefined,
    says: /boils where/,
  },
];

describe('the product', () => {
  it.each(SCENARIOS)('$name', (scenario) => {
    const judged = judgeBoiling(entered(scenario.entered), cyclohexene);
    expect(of(judged, 'boiling-range').agreement).toBe(scenario.identity);
    expect(of(judged, 'boiling-range').says).toMatch(scenario.says);
    expect(of(judged, 'boiling-purity')?.agreement).toBe(scenario.purity);
    for (const one of judged.statements)
      expect(`${one.says} ${one.limits}`).not.toMatch(/[Cc]onfirm|!|NaN|undefined/);
  });
  it('a wide range carries little, whatever it holds', () => {
    const judged = judgeBoiling(entered({ low_C: 72, high_C: 92 }), cyclohexene);
    expect(of(judged, 'boiling-range').weight).toBe('weak');
  });
  it('names the azeotrope that boils there', () => {
    const judged = judgeBoiling(entered({ low_C: 70, high_C: 72 }), cyclohexene);
    expect(of(judged, 'boiling-azeotrope-cyclohexene-water').says).toContain(
      'cyclohexene and water',
    );
  });
  it('compares at the pressure of the literature value', () => {
    const product = subject('benzaldehyde', {
      boilingPoint_C: 62,
      boilingPressure_kPa: toKPa(10, 'mmHg'),
    });
    const at = (low_C: number, mmHg: number) =>
      of(
        judgeBoiling(
          entered({ low_C, high_C: low_C + 1, pressure: { value: mmHg, unit: 'mmHg' } }),
          { product, others: [] },
        ),
        'boiling-range',
      );
    expect(at(61.5, 10)).toMatchObject({
      agreement: 'agrees',
      measured: '61.5–62.5 °C at 1.33 kPa',
    });
    expect(at(74, 20).agreement).toBe('agrees');
    expect(at(100, 20).agreement).toBe('disagrees');
  });
  it('says that no pressure was given, and allows for it', () => {
    const { pressure: _, ...rest } = entered({});
    const judged = judgeBoiling(rest, cyclohexene);
    expect(judged.diagnostics.map(({ code }) => code)).toEqual(['pressure-not-given']);
    expect(of(judged, 'boiling-range').agreement).toBe('agrees');
  });
  it('without a literature value cannot tell', () => {
    const judged = judgeBoiling(entered({}), { product: subject('urea'), others: [] });
    expect(judged.statements[0]).toMatchObject({ agreement: 'cannotTell', expected: '' });
  });
});

describe('association', () => {
  it.each([
    ['ethanol', 'hydrogenBonded'],
    ['acetic acid', 'hydrogenBonded'],
    ['water', 'hydrogenBonded'],
    ['toluene', 'plain'],
    ['aniline', 'plain'],
    ['ethyl acetate', 'plain'],
  ])('%s: %s', (name, expected) => {
    expect(associationOf(table.byName.get(name)!)).toBe(expected);
  });
});

describe('what cannot be', () => {
  const wrong: readonly (readonly [string, Partial<BoilingEntered>, string])[] = [
    ['1200 °C', { high_C: 1200 }, 'boiling-implausible'],
    ['a negative pressure', { pressure: { value: -3, unit: 'kPa' } }, 'pressure-implausible'],
    ['mmHg entered as kPa', { pressure: { value: 760, unit: 'kPa' } }, 'pressure-implausible'],
  ];
  it.each(wrong)('%s', (_, more, code) => {
    const judged = judgeBoiling(entered(more), cyclohexene);
    expect(judged.statements).toEqual([]);
    expect(judged.diagnostics.map((one) => one.code)).toEqual([code]);
  });
  it('the wrong way round is turned', () => {
    const judged = judgeBoiling(entered({ low_C: 83.5, high_C: 82 }), cyclohexene);
    expect(judged.diagnostics[0]!.code).toBe('range-reversed');
    expect(of(judged, 'boiling-range').agreement).toBe('agrees');
  });
  it('the schema is strict', () => {
    expect(boilingEnteredSchema.safeParse(entered({})).success).toBe(true);
    expect(boilingEnteredSchema.safeParse({ ...entered({}), still: 'big' }).success).toBe(false);
  });
});

describe('properties', () => {
  const t = fc.double({ min: 20, max: 300, noNaN: true });
  const p = fc.double({ min: 0.1, max: 115, noNaN: true });
  const phi = fc.constantFrom(phiOf('plain'), phiOf('hydrogenBonded'), phiOf('unknown'));
  it('there and back is where it was', () => {
    fc.assert(
      fc.property(t, p, p, phi, (t_C, a, b, f) => {
        expect(boilingAt(boilingAt(t_C, a, b, f), b, a, f)).toBeCloseTo(t_C, 6);
      }),
    );
  });
  it('a higher pressure boils higher, a higher reading stays higher', () => {
    fc.assert(
      fc.property(t, p, p, p, phi, (t_C, at, a, b, f) => {
        expect(boilingAt(t_C, at, Math.min(a, b), f)).toBeLessThanOrEqual(
          boilingAt(t_C, at, Math.max(a, b), f) + 1e-9,
        );
        expect(boilingAt(t_C, at, a, f)).toBeLessThanOrEqual(boilingAt(t_C + 1, at, a, f));
      }),
    );
  });
  it('judging the literature value agrees', () => {
    fc.assert(
      fc.property(t, p, (value, kPa) => {
        const product = subject('toluene', { boilingPoint_C: value, boilingPressure_kPa: kPa });
        const judged = judgeBoiling(
          entered({ low_C: value, high_C: value, pressure: { value: kPa, unit: 'kPa' } }),
          { product, others: [] },
        );
        expect(of(judged, 'boiling-range').agreement).toBe('agrees');
      }),
    );
  });
  it('every component of an azeotrope is a substance of the table', () => {
    for (const { first, second } of azeotropes())
      expect([first, second].filter((name) => !table.byName.has(name))).toEqual([]);
  });
});

it('low without a barometer: it may have been high above the sea', () => {
  const { pressure: _, ...unread } = entered({ low_C: 76, high_C: 77 });
  const low = of(judgeBoiling(unread, cyclohexene), 'boiling-range');
  expect(low).toMatchObject({ agreement: 'disagrees', weight: 'weak' });
  expect(low.says).toMatch(/high above the sea\.$/);
  const read = of(judgeBoiling(entered({ low_C: 76, high_C: 77 }), cyclohexene), 'boiling-range');
  expect(read.weight).toBe('moderate');
});
