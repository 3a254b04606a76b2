import { describe, expect, it } from 'vitest';
import { checkBalance } from '../../ledger/balance.ts';
import type { Move, SplitRule } from '../../experiment/move.ts';
import type { Enactment } from '../enactment.ts';
import { enact } from '../enact.ts';
import * as f from '../fixture.ts';
import type { Sketch } from '../fixture.ts';

const codes = (e: Enactment) =>
  e.diagnostics.map((d) => d.code).filter((c) => c !== 'undisposed' && c !== 'product-not-weighed');

function run(sketch: Sketch): Enactment {
  const e = enact(f.program(sketch), f.TABLE);
  expect(checkBalance(e.postings, e.substances)).toEqual([]);
  return e;
}

/** mmol (g without a formula) of each substance in a vessel at the end. */
function holds(e: Enactment, vessel: string): Record<string, number> {
  const sum: Record<string, number> = {};
  for (const p of e.final.find((v) => v.vessel === vessel)?.phases ?? [])
    for (const c of p.contents)
      sum[c.substance] = Number(((sum[c.substance] ?? 0) + (c.amount_mmol || c.mass_g)).toFixed(3));
  return sum;
}

type Shelf = readonly (readonly [string, string])[];

function parted(
  materials: Shelf,
  by: SplitRule,
  part: Parameters<typeof f.pour>[2],
  more: Partial<Sketch> = {},
): Enactment {
  const moves: Move[] = materials.map(([name, amount]) => f.charge(f.use(name, amount), 'a'));
  return run({
    lines: [
      { verb: 'charge', moves },
      { verb: 'separate', moves: [f.split('a', by), f.pour('a', 'b', part)] },
    ],
    ...more,
  });
}

const names = (e: Enactment, vessel: string) => Object.keys(holds(e, vessel)).sort();

describe('layers', () => {
  const wash: Shelf = [
    ['diethyl ether', '20 mL'],
    ['benzoic acid', '5 mmol'],
    ['ethanol', '2 mL'],
    ['water', '20 mL'],
    ['sodium chloride', '1 g'],
  ];
  it('takes the organic layer as the upper one over water', () => {
    const e = parted(wash, { rule: 'layers' }, 'upper');
    expect(names(e, 'b')).toEqual(['benzoic acid', 'diethyl ether']);
    expect(names(e, 'a')).toEqual(['ethanol', 'sodium chloride', 'water']);
  });
  it('takes dichloromethane as the lower one', () => {
    const heavy = wash.map(([n, a]) => [n === 'diethyl ether' ? 'dichloromethane' : n, a] as const);
    expect(names(parted(heavy, { rule: 'layers' }, 'lower'), 'b')).toContain('dichloromethane');
  });
  it('sees two layers where a little ether lies on aqueous ethanol', () => {
    const lean: Shelf = [
      ['ethanol', '10 mL'],
      ['water', '10 mL'],
      ['diethyl ether', '2 mL'],
    ];
    expect(names(parted(lean, { rule: 'layers' }, 'upper'), 'b')).toEqual(['diethyl ether']);
  });
  const remarks: [string, Shelf, Parameters<typeof f.pour>[2], string[]][] = [
    [
      'two organic liquids',
      [
        ['toluene', '5 mL'],
        ['diethyl ether', '5 mL'],
      ],
      'upper',
      ['organic-layers', 'one-layer'],
    ],
    ['one layer only', [['water', '5 mL']], 'lower', ['one-layer']],
    ['no organic layer', [['water', '5 mL']], 'organic', ['phase-missing']],
    [
      'close densities',
      [
        ['water', '10 mL'],
        ['anisole', '10 mL'],
      ],
      'upper',
      ['layers-close'],
    ],
    ['nothing at all', [], 'upper', ['vessel-empty']],
  ];
  it.each(remarks)('says so of %s', (_what, materials, part, expected) => {
    expect(codes(parted(materials, { rule: 'layers' }, part))).toEqual(expected);
  });
});

describe('filter', () => {
  const slurry: Shelf = [
    ['benzoic acid', '10 mmol'],
    ['ethanol', '20 mL'],
    ['activated carbon', '0.1 g'],
  ];
  it('keeping the liquid holds back only what is insoluble', () => {
    const e = parted(slurry, { rule: 'filter', keep: 'liquid' }, 'liquid');
    expect(names(e, 'b')).toEqual(['benzoic acid', 'ethanol']);
  });
  it('keeping the solid takes organic solids as crystallised', () => {
    const e = parted(slurry, { rule: 'filter', keep: 'solid' }, 'solid');
    expect(names(e, 'b')).toEqual(['activated carbon', 'benzoic acid']);
  });
  it('not told which, takes the solids that are there, or crystals from a clear solution', () => {
    const both: SplitRule = { rule: 'filter', keep: 'both' };
    expect(names(parted(slurry, both, 'solid'), 'b')).toEqual(['activated carbon']);
    expect(names(parted(slurry.slice(0, 2), both, 'solid'), 'b')).toEqual(['benzoic acid']);
  });
  it('holds back a product that is a salt', () => {
    const salt: Shelf = [
      ['sodium benzoate', '10 mmol'],
      ['water', '10 mL'],
    ];
    const e = parted(salt, { rule: 'filter', keep: 'solid' }, 'solid', {
      products: ['sodium benzoate'],
    });
    expect(names(e, 'b')).toEqual(['sodium benzoate']);
  });
  it('lets a wash run through crystals on the filter', () => {
    const e = run({
      vessels: { filter: { shape: 'filter' } },
      lines: [
        {
          verb: 'filter',
          moves: [
            f.charge(f.use('benzoic acid', '10 mmol'), 'a'),
            f.charge(f.use('ethanol', '20 mL'), 'a'),
            f.split('a', { rule: 'filter', keep: 'solid' }),
            f.pour('a', 'filter', 'solid'),
            f.pour('a', 'filtrate', 'liquid'),
          ],
        },
        {
          verb: 'washSolid',
          moves: [
            f.charge(f.use('ethanol', '2 mL'), 'filter'),
            f.split('filter', { rule: 'filter', keep: 'solid' }),
            f.pour('filter', 'filtrate', 'liquid'),
          ],
        },
      ],
    });
    expect(holds(e, 'filter')).toEqual({ 'benzoic acid': 10 });
  });
});

describe('evaporate', () => {
  const extract: Shelf = [
    ['diethyl ether', '20 mL'],
    ['water', '0.1 g'],
    ['benzyl alcohol', '5 mmol'],
    ['sodium chloride', '0.1 g'],
  ];
  const dry: SplitRule = { rule: 'evaporate', toDryness: true };
  it('takes off solvents and water, not salts or what boils high', () => {
    expect(names(parted(extract, dry, 'vapour'), 'b')).toEqual(['diethyl ether', 'water']);
  });
  it('takes only what is named', () => {
    const e = parted(extract, { ...dry, only: ['diethyl ether'] }, 'vapour');
    expect(names(e, 'b')).toEqual(['diethyl ether']);
  });
  it('never takes the product, and warns where it is volatile', () => {
    const ester: Shelf = [
      ['diethyl ether', '20 mL'],
      ['ethyl acetate', '5 mmol'],
    ];
    const e = parted(ester, dry, 'vapour', { products: ['ethyl acetate'] });
    expect(names(e, 'b')).toEqual(['diethyl ether']);
    expect(codes(e)).toEqual([]);
    const close = parted(
      [
        ['hexane', '20 mL'],
        ['ethyl acetate', '5 mmol'],
      ],
      dry,
      'vapour',
      {
        products: ['ethyl acetate'],
      },
    );
    expect(codes(close)).toEqual(['product-volatile']);
    const lower = parted(
      [
        ['toluene', '20 mL'],
        ['ethyl acetate', '5 mmol'],
      ],
      dry,
      'vapour',
      {
        products: ['ethyl acetate'],
      },
    );
    expect(names(lower, 'b')).toEqual(['ethyl acetate', 'toluene']);
  });
  it('puts back what nobody takes away', () => {
    const e = parted(extract, dry, 'solid');
    expect(names(e, 'a')).toContain('diethyl ether');
  });
});

describe('distil', () => {
  const pot: Shelf = [
    ['cyclohexene', '10 mmol'],
    ['cyclohexanol', '5 mmol'],
    ['water', '1 mL'],
  ];
  it('takes what boils between the head temperatures', () => {
    const e = parted(pot, { rule: 'distil', from_C: 80, to_C: 85, steam: false }, 'vapour');
    expect(names(e, 'b')).toEqual(['cyclohexene']);
  });
  it('takes all below the upper one', () => {
    const e = parted(pot, { rule: 'distil', to_C: 100, steam: false }, 'vapour');
    expect(names(e, 'b')).toEqual(['cyclohexene', 'water']);
  });
  it('takes the product and what boils lower', () => {
    const e = parted(pot, { rule: 'distil', steam: false }, 'vapour', {
      products: ['cyclohexene'],
    });
    expect(names(e, 'b')).toEqual(['cyclohexene']);
  });
  it('takes the product under reduced pressure, and says so', () => {
    const e = parted(pot, { rule: 'distil', from_C: 60, to_C: 62, steam: false }, 'vapour', {
      products: ['cyclohexanol'],
    });
    expect(names(e, 'b')).toEqual(['cyclohexanol']);
    expect(codes(e)).toEqual(['distil-range']);
  });
  it('carries organics over with steam, and water with them', () => {
    const e = parted(
      [
        ['anisole', '1 g'],
        ['water', '50 mL'],
        ['sodium chloride', '1 g'],
      ],
      { rule: 'distil', steam: true },
      'vapour',
    );
    expect(names(e, 'b')).toEqual(['anisole', 'water']);
    expect(holds(e, 'b')['water']).toBeCloseTo(5000 / 18.015, 1);
  });
});

describe('dry', () => {
  const wet = (water: string): Shelf => [
    ['diethyl ether', '20 mL'],
    ['water', water],
    ['magnesium sulfate', '1 g'],
  ];
  it('binds water up to the hydrate, so that it is filtered off with the agent', () => {
    const moves = wet('0.5 g').map(([n, a]) => f.charge(f.use(n, a), 'a'));
    const e = run({
      lines: [
        { verb: 'dry', moves: [...moves, f.split('a', { rule: 'dry' })] },
        {
          verb: 'filter',
          moves: [f.split('a', { rule: 'filter', keep: 'liquid' }), f.pour('a', 'b', 'liquid')],
        },
      ],
    });
    expect(names(e, 'b')).toEqual(['diethyl ether']);
    expect(names(e, 'a')).toEqual(['magnesium sulfate', 'water']);
    expect(codes(e)).toEqual([]);
  });
  it('says when there is more water than it can bind', () => {
    const e = parted(wet('3 g'), { rule: 'dry' }, 'solid');
    expect(codes(e)).toEqual(['drying-agent-short']);
    expect(holds(e, 'b')['water']).toBeCloseTo(1048 / 18.015, 1);
  });
  it('says when there is no drying agent', () => {
    const e = parted([['diethyl ether', '5 mL']], { rule: 'dry' }, 'liquid');
    expect(codes(e)).toEqual(['drying-agent-missing']);
  });
});

describe('crystallise, sublime, azeotrope', () => {
  it('crystals stay crystals until solvent or heat comes', () => {
    const sketch = (...extra: Move[]): Sketch => ({
      products: ['benzoic acid'],
      lines: [
        {
          verb: 'recrystallise',
          moves: [
            f.charge(f.use('benzoic acid', '10 mmol'), 'a'),
            f.charge(f.use('ethanol', '20 mL'), 'a'),
            f.split('a', { rule: 'crystallise' }),
          ],
        },
        { verb: 'stir', moves: extra },
      ],
    });
    const solid = (e: Enactment) => e.final[0]!.phases.some((p) => p.phase === 'solid');
    expect(solid(run(sketch()))).toBe(true);
    expect(solid(run(sketch(f.stir('a'))))).toBe(true);
    expect(solid(run(sketch(f.reflux('a'))))).toBe(false);
    expect(solid(run(sketch(f.charge(f.use('ethanol', '20 mL'), 'a'))))).toBe(false);
  });
  it('says when nothing can crystallise', () => {
    const e = parted([['ethanol', '5 mL']], { rule: 'crystallise' }, 'liquid');
    expect(codes(e)).toEqual(['nothing-crystallises']);
  });
  it('sublimes the product away from salt', () => {
    const e = parted(
      [
        ['naphthalene', '1 g'],
        ['sodium chloride', '1 g'],
      ],
      { rule: 'sublime' },
      'vapour',
      { products: ['naphthalene'] },
    );
    expect(names(e, 'b')).toEqual(['naphthalene']);
  });
  it('carries water to the trap', () => {
    const e = parted(
      [
        ['toluene', '20 mL'],
        ['water', '1 mL'],
      ],
      { rule: 'azeotrope' },
      'vapour',
    );
    expect(names(e, 'b')).toEqual(['water']);
  });
});
