import { describe, expect, it } from 'vitest';
import { tableWith, makeSubstance } from '../chemistry/substance.ts';
import { enact } from './enact.ts';
import * as f from './fixture.ts';
import type { Sketch } from './fixture.ts';

function chargeAll(
  uses: readonly ReturnType<typeof f.use>[],
  more: Partial<Sketch> = {},
  actuals?: Parameters<typeof enact>[3],
) {
  const lines = uses.map((u) => ({ verb: 'charge' as const, moves: [f.charge(u, 'flask')] }));
  return enact(f.program({ lines, ...more }), f.TABLE, undefined, actuals);
}

describe('one amount is believed: mass, volume, moles, equivalents', () => {
  // Densities and molar masses: data/substances.csv, data/atomic_weights.csv.
  const cases: [string, string[], string, number, number | undefined][] = [
    ['ethanol', ['10 mL'], 'volume', 7.893, 171.3],
    ['ethanol', ['7.893 g', '10 mL', '171 mmol'], 'mass', 7.893, 171.3],
    ['ethanol', ['171.3 mmol'], 'amount', 7.892, 171.3],
    ['1 M hydrochloric acid', ['10 mL'], 'volume', 10.16, 10],
    ['2 M hydrochloric acid', ['20 mmol'], 'amount', 10.33, 20],
    ['ethanol', ['5–10 mL'], 'volume', 5.92, 128.5],
    ['ethanol', ['10 drops'], 'volume', 0.395, 8.57],
  ];
  it.each(cases)('%s %j is measured as %s', (name, amounts, measuredAs, mass_g, mmol) => {
    const c = chargeAll([f.use(name, amounts)]).charges[0]!;
    expect(c.measuredAs).toBe(measuredAs);
    expect(Math.abs(c.mass_g - mass_g) / mass_g).toBeLessThan(0.01);
    expect(Math.abs(c.amount_mmol! - mmol!) / mmol!).toBeLessThan(0.01);
  });

  it('counts repeats, and each turn by its share', () => {
    const u = f.use('diethyl ether', '10 mL', 3);
    const moves = [1, 2, 3].map((turn) => f.charge(u, 'funnel', turn));
    const e = enact(f.program({ lines: [{ verb: 'extract', moves }] }), f.TABLE);
    expect(e.charges).toHaveLength(1);
    expect(e.charges[0]!.volume_mL).toBeCloseTo(30, 9);
    expect(e.final[0]!.mass_g).toBeCloseTo(e.charges[0]!.mass_g, 9);
    const all = chargeAll([f.use('diethyl ether', '10 mL', 3)]);
    expect(all.final[0]!.mass_g).toBeCloseTo(e.final[0]!.mass_g, 9);
  });

  it('finds equivalents whatever the order', () => {
    const reaction = f.reaction('benzaldehyde + NaBH4 -> benzyl alcohol');
    const hydride = f.use('sodium borohydride', '0.5 equiv');
    const aldehyde = f.use('benzaldehyde', ['1.06 g', '10 mmol']);
    for (const uses of [
      [hydride, aldehyde],
      [aldehyde, hydride],
    ]) {
      const c = chargeAll(uses, { reactions: [reaction] }).charges.find(
        (x) => x.use === hydride.id,
      )!;
      expect(c.measuredAs).toBe('equivalents');
      expect(c.amount_mmol).toBeCloseTo(0.5 * (1060 / 106.124), 2);
    }
  });

  it('keeps a range as assumed, and says the density that it used', () => {
    const c = chargeAll([f.use('ethanol', '5–10 mL')]).charges[0]!;
    expect(c.basis).toBe('assumed');
    expect(c.assumed.join('; ')).toMatch(/middle of the range.*density 0\.789/);
  });

  it('puts a measured charge, and a measured purity, in place of the plan', () => {
    const u = f.use('benzoic acid', '1.22 g');
    const nets = new Map<string, number>();
    const mass = chargeAll([u], {}, { charges: new Map([[u.id, { mass_g: 1.3 }]]), nets });
    expect(mass.charges[0]).toMatchObject({ mass_g: 1.3, basis: 'measured', measuredAs: 'mass' });
    expect(mass.postings.every((p) => p.basis === 'measured')).toBe(true);
    const pure = chargeAll([u], {}, { charges: new Map([[u.id, { purity_percent: 90 }]]), nets });
    expect(pure.charges[0]!.amount_mmol).toBeCloseTo((0.9 * 1220) / 122.123, 2);
    expect(pure.final[0]!.mass_g).toBeCloseTo(1.22, 9);
  });
});

describe('what is said of a charge', () => {
  const nameless = makeSubstance({ name: 'aldol oil', smiles: 'CC(O)CC=O', state: 'liquid' });
  if (!nameless.ok) throw new Error(nameless.message);
  const table = tableWith([nameless.substance]);
  const cases: [string, ReturnType<typeof f.use>[], string[]][] = [
    ['amounts that agree', [f.use('ethanol', ['10 mL', '171 mmol'])], []],
    ['agreement within the last digit', [f.use('sodium borohydride', ['0.15 g', '4 mmol'])], []],
    ['a wrong figure', [f.use('ethanol', ['10 mL', '150 mmol'])], ['amount-disagrees']],
    ['mass against volume', [f.use('ethanol', ['10 g', '10 mL'])], ['amount-disagrees']],
    ['an assay implied', [f.use('potassium hydroxide', ['9.9 g', '150 mmol'])], ['purity-implied']],
    [
      'wrong equivalents',
      [f.use('benzoic acid', ['1.22 g', '1 equiv']), f.use('methanol', ['3.2 g', '8 equiv'])],
      ['equivalents-disagree'],
    ],
    [
      'right equivalents',
      [f.use('benzoic acid', ['1.22 g', '1 equiv']), f.use('methanol', ['3.2 g', '10 equiv'])],
      [],
    ],
    ['a volume without a density', [f.use('aldol oil', '3 mL', 1, table)], ['density-unknown']],
    [
      'a volume without a density, but moles',
      [f.use('aldol oil', ['3 mL', '30 mmol'], 1, table)],
      [],
    ],
    [
      'nothing to count equivalents on',
      [f.use('methanol', '2 equiv')],
      ['equivalents-without-basis'],
    ],
    ['no amount: the reader has said so', [f.use('ethanol')], []],
    ['an excess', [f.use('ethanol', 'excess')], []],
  ];
  it.each(cases)('%s', (_what, uses, codes) => {
    const found = chargeAll(uses).diagnostics.map((d) => d.code);
    expect(found.filter((code) => code !== 'undisposed')).toEqual(codes);
  });

  it('names both figures and the place', () => {
    const e = chargeAll([f.use('ethanol', ['10 mL', '150 mmol'])]);
    const d = e.diagnostics.find((x) => x.code === 'amount-disagrees')!;
    expect(d.message).toMatch(/10 mL comes to 171 mmol, but 150 mmol/);
    expect(d.at).toMatchObject({ line: 1, column: 1, length: 10, step: '1' });
  });

  it('keeps what is not counted', () => {
    const e = chargeAll([f.use('ethanol', 'until colourless'), f.use('water')]);
    expect(e.unquantified.map((u) => u.name)).toEqual(['ethanol', 'water']);
  });
});
