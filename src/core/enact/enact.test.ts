import { describe, expect, it } from 'vitest';
import { checkBalance, massUnder, balances } from '../ledger/balance.ts';
import { enact } from './enact.ts';
import type { Enactment } from './enactment.ts';
import * as f from './fixture.ts';
import type { Sketch } from './fixture.ts';
import { netKey } from './actuals.ts';
import type { Actuals } from './actuals.ts';

const EXTRACT = f.use('diethyl ether', '10 mL', 3);

function run(sketch: Sketch, actuals?: Actuals): Enactment {
  const found = enact(f.program(sketch), f.TABLE, undefined, actuals);
  expect(checkBalance(found.postings, found.substances)).toEqual([]);
  return found;
}

const codes = (e: Enactment) => e.diagnostics.map((d) => d.code);

describe('the reduction of a ketone with borohydride, by hand', () => {
  const ketone = f.reaction(
    '4 4-methylcyclohexanone + NaBH4 + 4 H2O -> 4 4-methylcyclohexanol + NaB(OH)4',
  );
  const lines: Sketch['lines'] = [
    {
      verb: 'charge',
      moves: [
        f.charge(f.use('4-methylcyclohexanone', '1.12 g'), 'flask'),
        f.charge(f.use('ethanol', '10 mL'), 'flask'),
      ],
    },
    { verb: 'add', moves: [f.charge(f.use('sodium borohydride', '0.15 g'), 'flask')] },
    { verb: 'stir', moves: [f.stir('flask', 20), f.react('flask')] },
    {
      verb: 'quench',
      moves: [
        f.charge(f.use('1 M hydrochloric acid', '10 mL'), 'flask'),
        f.react('flask', 'quench'),
      ],
    },
    {
      verb: 'transfer',
      moves: [
        f.pour('flask', 'funnel'),
        f.charge(f.use('diethyl ether', '2 mL'), 'flask'),
        f.pour('flask', 'funnel'),
      ],
    },
    {
      verb: 'extract',
      moves: [1, 2, 3].flatMap((turn) => [
        f.charge(EXTRACT, 'funnel', turn),
        f.react('funnel', 'separation'),
        f.split('funnel', { rule: 'layers' }),
        f.pour('funnel', 'extracts', 'upper'),
      ]),
    },
    { verb: 'discard', moves: [f.discard('funnel', 'aqueous')] },
    {
      verb: 'dry',
      moves: [
        f.charge(f.use('anhydrous magnesium sulfate', '1 g'), 'extracts'),
        f.split('extracts', { rule: 'dry' }),
      ],
    },
    {
      verb: 'filter',
      moves: [
        f.split('extracts', { rule: 'filter', keep: 'liquid' }),
        f.pour('extracts', 'receiver', 'liquid'),
        f.discard('extracts', 'solids'),
      ],
    },
    {
      verb: 'evaporate',
      moves: [
        f.split('receiver', { rule: 'evaporate', toDryness: true }),
        f.pour('receiver', 'trap', 'vapour'),
      ],
    },
    { verb: 'weigh', moves: [f.weigh('receiver')] },
    { verb: 'discard', moves: [f.discard('trap', 'solvents')] },
  ];
  const sketch: Sketch = {
    reactions: [ketone],
    products: ['4-methylcyclohexanol'],
    vessels: {
      flask: { shape: 'round-bottom flask', capacity_mL: 50 },
      funnel: { shape: 'separatory funnel', capacity_mL: 125 },
    },
    lines,
  };
  const e = run(sketch);

  it('runs at the quench, when its water has come, and the excess hydride gives hydrogen', () => {
    // 1.12 g / 112.17 g/mol = 9.985 mmol; 0.15 g / 37.83 g/mol = 3.965 mmol, 2.496 used.
    const declared = e.reactions.find((r) => r.kind === 'declared')!;
    expect(declared.extent_mmol).toBeCloseTo(9.985 / 4, 2);
    expect(declared.limiting).toBe('4-methylcyclohexanone');
    const hydrogen = e.gases.find((g) => g.substance === 'hydrogen')!;
    expect(hydrogen.amount_mmol).toBeCloseTo(4 * (3.965 - 2.496), 1);
    expect(hydrogen.volume_L).toBeCloseTo(0.14, 2);
  });

  it('keeps one phase in aqueous ethanol and two with ether', () => {
    const after = (step: string, vessel: string) =>
      e.trace.find((t) => t.step === step)!.vessels.find((v) => v.vessel === vessel)!;
    expect(after('1', 'flask').phases.map((p) => p.phase)).toEqual(['organic']);
    expect(after('4', 'flask').phases.map((p) => p.phase)).toEqual(['aqueous']);
    expect(after('5', 'funnel').phases.map((p) => p.phase)).toEqual(['aqueous']);
    const extract = after('6', 'extracts').phases[0]!;
    expect(extract.contents.map((c) => c.substance).sort()).toEqual([
      '4-methylcyclohexanol',
      'diethyl ether',
    ]);
  });

  it('ends with the product weighed and nothing to remark on', () => {
    const net = e.observations[0]!;
    expect(net.expected_g).toBeCloseTo(9.985e-3 * 114.188, 3);
    expect(codes(e)).toEqual([]);
  });

  it('posts what was charged in the first sentence', () => {
    expect(e.postings[0]).toMatchObject({
      step: '1',
      from: 'stock/4-methylcyclohexanone',
      to: 'vessel/flask/organic',
      substance: '4-methylcyclohexanone',
    });
  });

  it('counts a measured charge and a loss on a bench', () => {
    const id =
      lines[0]!.moves[0]!.kind === 'move'
        ? (lines[0]!.moves[0] as { use: { id: string } }).use.id
        : '';
    const bench = run(sketch, {
      charges: new Map([[id, { mass_g: 1.1 }]]),
      nets: new Map([[netKey('11', 'receiver'), 0.9]]),
    });
    expect(bench.kind).toBe('bench');
    expect(bench.charges[0]).toMatchObject({ mass_g: 1.1, basis: 'measured' });
    const lost = massUnder(balances(bench.postings), 'loss/11');
    expect(lost).toBeCloseTo((1.1 / 112.172) * 114.188 - 0.9, 3);
  });

  it('says so when more is weighed than can be there', () => {
    const bench = run(sketch, {
      charges: new Map(),
      nets: new Map([[netKey('11', 'receiver'), 1.5]]),
    });
    expect(codes(bench)).toContain('unexplained-mass');
    expect(-massUnder(balances(bench.postings), 'unexplained')).toBeCloseTo(1.5 - 1.1402, 3);
  });
});
