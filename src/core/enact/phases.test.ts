import { describe, expect, it } from 'vitest';
import { enact } from './enact.ts';
import * as f from './fixture.ts';

/** What settles where, as "phase: substance, substance" from the bottom up. */
function settled(...materials: readonly (readonly [string, string])[]): string[] {
  const moves = materials.map(([name, amount]) => f.charge(f.use(name, amount), 'flask'));
  const e = enact(f.program({ lines: [{ verb: 'charge', moves }] }), f.TABLE);
  const phases = e.final[0]?.phases ?? [];
  return phases.map((p) => `${p.phase}: ${p.contents.map((c) => c.substance).join(', ')}`);
}

describe('where matter settles', () => {
  const cases: [string, [string, string][], string[]][] = [
    ['a dry salt', [['sodium benzoate', '1.44 g']], ['solid: sodium benzoate']],
    [
      'a salt with water',
      [
        ['sodium benzoate', '1.44 g'],
        ['water', '20 mL'],
      ],
      ['aqueous: sodium benzoate, water'],
    ],
    [
      'an organic solid in water',
      [
        ['benzoic acid', '1 g'],
        ['water', '20 mL'],
      ],
      ['solid: benzoic acid', 'aqueous: water'],
    ],
    [
      'an organic solid in ethanol',
      [
        ['benzoic acid', '1 g'],
        ['ethanol', '20 mL'],
      ],
      ['organic: benzoic acid, ethanol'],
    ],
    [
      'an organic solid in aqueous ethanol',
      [
        ['benzoic acid', '1 g'],
        ['ethanol', '10 mL'],
        ['water', '10 mL'],
      ],
      ['aqueous: benzoic acid, ethanol, water'],
    ],
    [
      'an organic solid in water with a trace of ethanol',
      [
        ['benzoic acid', '1 g'],
        ['ethanol', '1 mL'],
        ['water', '20 mL'],
      ],
      ['solid: benzoic acid', 'aqueous: ethanol, water'],
    ],
    [
      '95 % ethanol is one organic liquid',
      [['95 % ethanol', '10 mL']],
      ['organic: ethanol, water'],
    ],
    [
      'ether over water',
      [
        ['diethyl ether', '10 mL'],
        ['water', '10 mL'],
      ],
      ['aqueous: water', 'organic: diethyl ether'],
    ],
    [
      'dichloromethane under water',
      [
        ['dichloromethane', '10 mL'],
        ['water', '10 mL'],
      ],
      ['organic: dichloromethane', 'aqueous: water'],
    ],
    [
      'a metal, a salt and ether',
      [
        ['zinc', '1 g'],
        ['sodium chloride', '1 g'],
        ['diethyl ether', '10 mL'],
      ],
      ['solid: zinc, sodium chloride', 'organic: diethyl ether'],
    ],
    [
      'a salt in ethanol dissolves',
      [
        ['sodium borohydride', '0.15 g'],
        ['ethanol', '10 mL'],
      ],
      ['organic: sodium borohydride, ethanol'],
    ],
    [
      'mixed acid under toluene',
      [
        ['concentrated sulfuric acid', '5 mL'],
        ['toluene', '5 mL'],
      ],
      ['aqueous: sulfuric acid, water', 'organic: toluene'],
    ],
    [
      'a catalytic acid in an esterification',
      [
        ['acetic acid', '15 mL'],
        ['3-methylbutan-1-ol', '12 mL'],
        ['concentrated sulfuric acid', '1 mL'],
      ],
      ['organic: acetic acid, 3-methylbutan-1-ol, sulfuric acid, water'],
    ],
    [
      'a lump of solid in a drop of oil stays solid',
      [
        ['benzoic acid', '5 g'],
        ['toluene', '0.1 g'],
      ],
      ['solid: benzoic acid', 'organic: toluene'],
    ],
    [
      'hydrogen chloride stays in its water',
      [['1 M hydrochloric acid', '10 mL']],
      ['aqueous: hydrogen chloride, water'],
    ],
    ['carbon dioxide leaves', [['carbon dioxide', '1 g']], []],
  ];
  it.each(cases)('%s', (_what, materials, phases) => {
    expect(settled(...materials)).toEqual(phases);
  });

  it('releases a gas with its volume, n R T / p', () => {
    const moves = [f.charge(f.use('carbon dioxide', '10 mmol'), 'flask')];
    const e = enact(f.program({ lines: [{ verb: 'bubble', moves }] }), f.TABLE);
    expect(e.gases[0]!.volume_L).toBeCloseTo(0.24055, 4);
  });
});
