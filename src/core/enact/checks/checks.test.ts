import { describe, expect, it } from 'vitest';
import type { Move } from '../../experiment/move.ts';
import { readExperiment } from '../../experiment/read.ts';
import { enact } from '../enact.ts';
import * as f from '../fixture.ts';
import type { Sketch } from '../fixture.ts';
import { programOf } from '../program.ts';

const said = (sketch: Sketch) =>
  enact(f.program(sketch), f.TABLE).diagnostics.map((d) => `${d.severity} ${d.code}`);
const one = (moves: readonly Move[], more: Partial<Sketch> = {}): Sketch => ({
  lines: [{ verb: 'charge', moves }],
  ...more,
});
const flask = (capacity_mL: number) => ({
  vessels: { flask: { shape: 'round-bottom flask' as const, capacity_mL } },
});
const ethanol = (amount: string) => f.charge(f.use('ethanol', amount), 'flask');
const emptied = f.discard('flask', 'solvents');
const product = { products: ['benzoic acid'] };
const acid = (vessel = 'flask') => f.charge(f.use('benzoic acid', '1 g'), vessel);

describe('what is said of vessels, heat and products', () => {
  const cases: [string, Sketch, string[]][] = [
    ['a flask half full', one([ethanol('50 mL'), emptied], flask(100)), []],
    ['a flask nearly full', one([ethanol('97 mL'), emptied], flask(100)), ['warning overfull']],
    ['more than a flask holds', one([ethanol('110 mL'), emptied], flask(100)), ['error overfull']],
    [
      'a flask too full for reflux',
      one([ethanol('75 mL'), f.reflux('flask'), emptied], flask(100)),
      ['warning overfull'],
    ],
    [
      'a flask too empty for reflux',
      one([ethanol('5 mL'), f.reflux('flask'), emptied], flask(100)),
      ['warning underfull'],
    ],
    [
      'a full separatory funnel',
      one([f.charge(f.use('water', '100 mL'), 'funnel'), f.discard('funnel', 'aqueous')], {
        vessels: { funnel: { shape: 'separatory funnel', capacity_mL: 125 } },
      }),
      ['warning overfull'],
    ],
    [
      'a closed flask that is heated',
      one([ethanol('50 mL'), f.reflux('flask', true), emptied], flask(100)),
      ['error closed-heated'],
    ],
    [
      'heat above the boiling point',
      one([
        ethanol('50 mL'),
        { kind: 'wait', vessel: 'flask', temperature_C: 95, heating: 'warm', forReaction: false },
        emptied,
      ]),
      ['warning above-boiling'],
    ],
    [
      'a vessel used before it holds anything',
      one([f.discard('flask', 'x')]),
      ['warning vessel-empty'],
    ],
    [
      'more taken than there is',
      one([ethanol('5 mL'), f.discard('flask', 'x', { kind: 'volume', volume_mL: 10 })]),
      ['warning more-than-there-is'],
    ],
    ['matter left over', one([ethanol('5 mL')]), ['note undisposed']],
    [
      'a product never weighed',
      one([acid(), f.discard('flask', 'x')], product),
      ['warning product-discarded', 'warning product-not-weighed'],
    ],
    ['a product weighed', one([acid(), f.weigh('flask')], product), []],
    [
      'a product left behind in part',
      one(
        [acid(), f.pour('flask', 'vial', { kind: 'fraction', fraction: 0.5 }), f.weigh('vial')],
        product,
      ),
      ['warning product-discarded'],
    ],
    [
      'a trace of product left behind',
      one(
        [
          acid(),
          f.pour('flask', 'vial', { kind: 'fraction', fraction: 0.9 }),
          f.weigh('vial'),
          f.discard('flask', 'x'),
        ],
        product,
      ),
      [],
    ],
    ['an empty procedure', { lines: [], reactions: [f.reaction('2 H2 + O2 -> 2 H2O')] }, []],
  ];
  it.each(cases)('%s', (_what, sketch, expected) => {
    expect(said(sketch)).toEqual(expected);
  });

  it('says nothing of a vessel whose contents are not wholly known', () => {
    const moves = [f.charge(f.use('no such thing', '5 mL'), 'flask'), f.discard('flask', 'x')];
    expect(said(one(moves))).toEqual([]);
  });
});

describe('what is said of a declared reaction or a product', () => {
  const ended = (text: string) => enact(programOf(readExperiment(text)), f.TABLE).diagnostics;
  const EQUATION =
    '# T\n\n## Reaction\nbenzil + Zn + 2 AcOH -> benzoin + Zn(OAc)2\n\n## Procedure\n';

  it('counts the reactants that are missing', () => {
    const [two] = ended(`${EQUATION}1. Charge the flask with benzil 2.10 g.\n`);
    expect(two?.message).toContain('zinc and acetic acid are never charged');
    const [one] = ended(`${EQUATION}1. Charge the flask with benzil 2.10 g and zinc 2.0 g.\n`);
    expect(one?.message).toContain('acetic acid is never charged');
  });

  it('says at the last sentence, not at the equation, that the product is never weighed', () => {
    const said = ended(
      `${EQUATION}1. Charge the flask with benzil 2.10 g, zinc 2.0 g and acetic acid 3 mL.\n2. Stir for 1 h.\n`,
    );
    expect(said.find(({ code }) => code === 'product-not-weighed')?.at?.line).toBe(8);
  });
});
