import { describe, expect, it } from 'vitest';
import { balances, checkBalance, massUnder } from '../ledger/balance.ts';
import { enact } from './enact.ts';
import type { Enactment } from './enactment.ts';
import * as f from './fixture.ts';
import type { Sketch } from './fixture.ts';
import { sideReactionFaults, sideReactions } from './side-reactions.ts';

function run(sketch: Sketch): Enactment {
  const e = enact(f.program(sketch), f.TABLE);
  expect(checkBalance(e.postings, e.substances)).toEqual([]);
  return e;
}
const runs = (e: Enactment) => e.reactions.map((r) => `${r.step} ${r.reaction}`);
const codes = (e: Enactment) => e.diagnostics.map((d) => d.code);
const held = (e: Enactment, vessel: string, id: string) =>
  e.final
    .find((v) => v.vessel === vessel)!
    .phases.flatMap((p) => p.contents)
    .filter((c) => c.substance === id)
    .reduce((sum, c) => sum + c.amount_mmol, 0);

const acidify = f.reaction('sodium benzoate + HCl -> benzoic acid + NaCl');

describe('declared reactions', () => {
  const beaker = (
    trigger: 'wait' | 'contact' | 'separation' | 'stated' | 'activation' | 'quench',
  ) =>
    run({
      reactions: [acidify],
      lines: [
        {
          verb: 'add',
          moves: [
            f.charge(f.use('sodium benzoate', '10 mmol'), 'beaker'),
            f.charge(f.use('2 M hydrochloric acid', '6 mL'), 'beaker'),
            f.react('beaker', trigger),
          ],
        },
      ],
    });
  it.each(['wait', 'separation', 'stated', 'quench'] as const)('run at %s', (trigger) => {
    const e = beaker(trigger);
    expect(runs(e)).toEqual(['1 reaction 1']);
    expect(e.reactions[0]).toMatchObject({ limiting: 'sodium benzoate', kind: 'declared' });
    expect(e.reactions[0]!.extent_mmol).toBeCloseTo(10, 9);
    expect(e.final[0]!.phases[0]).toMatchObject({ phase: 'solid' });
  });
  it.each(['contact', 'activation'] as const)('wait, and are not undercut, at %s', (trigger) => {
    expect(runs(beaker(trigger))).toEqual([]);
  });

  it('go as far as their conversion, and not further at the next wait', () => {
    const e = run({
      reactions: [{ ...acidify, conversion: 0.8 }],
      lines: [
        {
          verb: 'add',
          moves: [
            f.charge(f.use('sodium benzoate', '10 mmol'), 'beaker'),
            f.charge(f.use('2 M hydrochloric acid', '6 mL'), 'beaker'),
            f.react('beaker'),
            f.react('beaker'),
          ],
        },
        { verb: 'transfer', moves: [f.pour('beaker', 'flask'), f.react('flask')] },
      ],
    });
    expect(runs(e)).toEqual(['1 reaction 1']);
    expect(held(e, 'flask', 'sodium benzoate')).toBeCloseTo(2, 9);
  });

  it('run again when more reagent comes', () => {
    const e = run({
      reactions: [acidify],
      lines: [
        {
          verb: 'add',
          moves: [
            f.charge(f.use('sodium benzoate', '10 mmol'), 'beaker'),
            f.charge(f.use('2 M hydrochloric acid', '3 mL'), 'beaker'),
            f.react('beaker'),
          ],
        },
        {
          verb: 'add',
          moves: [f.charge(f.use('2 M hydrochloric acid', '3 mL'), 'beaker'), f.react('beaker')],
        },
      ],
    });
    expect(e.reactions.map((r) => r.extent_mmol.toFixed(3))).toEqual(['6.000', '4.000']);
  });

  it('draw on an excess, with the water that it brings', () => {
    const e = run({
      reactions: [acidify],
      lines: [
        {
          verb: 'add',
          moves: [
            f.charge(f.use('sodium benzoate', '10 mmol'), 'beaker'),
            f.charge(f.use('2 M hydrochloric acid', 'excess'), 'beaker'),
            f.react('beaker'),
          ],
        },
      ],
    });
    expect(e.reactions[0]!.available[1]!.amount_mmol).toBe(Infinity);
    expect(e.charges[1]).toMatchObject({ measuredAs: 'excess', basis: 'assumed' });
    expect(e.charges[1]!.amount_mmol).toBeCloseTo(10, 9);
    expect(e.charges[1]!.volume_mL).toBeCloseTo(5, 1);
  });

  it('share what stands ready, where two of them go in part', () => {
    const ready = [
      { ...acidify, conversion: 0.6 },
      {
        ...f.reaction('2 sodium benzoate + H2SO4 -> 2 benzoic acid + Na2SO4'),
        id: 'b',
        conversion: 0.3,
      },
    ];
    const e = run({
      reactions: ready,
      lines: [
        {
          verb: 'add',
          moves: [
            f.charge(f.use('sodium benzoate', '10 mmol'), 'beaker'),
            f.charge(f.use('2 M hydrochloric acid', '20 mL'), 'beaker'),
            f.charge(f.use('1 M sulfuric acid', '20 mL'), 'beaker'),
            f.react('beaker'),
          ],
        },
      ],
    });
    expect(held(e, 'beaker', 'sodium benzoate')).toBeCloseTo(1, 9);
  });

  it('draw what an open equation leaves out from an account of its own', () => {
    const e = run({
      reactions: [f.reaction('benzaldehyde + NaBH4 -> benzyl alcohol')],
      lines: [
        {
          verb: 'stir',
          moves: [
            f.charge(f.use('benzaldehyde', '10 mmol'), 'flask'),
            f.charge(f.use('sodium borohydride', '12 mmol'), 'flask'),
            f.charge(f.use('methanol', '20 mL'), 'flask'),
            f.react('flask'),
          ],
        },
      ],
    });
    const book = balances(e.postings);
    // NaBH4 goes, two hydrogen atoms stay: 37.832 - 2.016 mg for each mmol.
    expect(massUnder(book, 'unwritten')).toBeCloseTo(0.3582, 3);
  });

  it('keep a gas that is led in until they have run', () => {
    const e = run({
      reactions: [f.reaction('cyclohexene + H2 -> cyclohexane')],
      lines: [
        {
          verb: 'bubble',
          moves: [
            f.charge(f.use('cyclohexene', '10 mmol'), 'flask'),
            f.gas(f.use('hydrogen', '15 mmol'), 'flask'),
            f.react('flask'),
          ],
        },
      ],
    });
    expect(e.reactions[0]!.extent_mmol).toBeCloseTo(10, 9);
    expect(e.gases[0]!.amount_mmol).toBeCloseTo(5, 9);
  });
});

describe('fast side reactions', () => {
  it('draw on an excess in the sentence that brings it, and not later', () => {
    const e = run({
      lines: [
        {
          verb: 'quench',
          moves: [
            f.charge(f.use('acetic anhydride', '10 mmol'), 'flask'),
            f.charge(f.use('water', 'excess'), 'flask'),
            f.react('flask', 'quench'),
          ],
        },
        {
          verb: 'quench',
          moves: [
            f.charge(f.use('acetic anhydride', '10 mmol'), 'flask'),
            f.react('flask', 'quench'),
          ],
        },
      ],
    });
    expect(e.reactions.map((r) => `${r.step} ${r.extent_mmol.toFixed(3)}`)).toEqual(['1 10.000']);
  });

  it('are all known and balanced', () => {
    expect(sideReactionFaults()).toEqual([]);
    expect(sideReactions().length).toBeGreaterThan(50);
  });

  it('neutralise on contact and release carbon dioxide', () => {
    const e = run({
      lines: [
        {
          verb: 'washLayer',
          moves: [
            f.charge(f.use('1 M hydrochloric acid', '5 mL'), 'funnel'),
            f.charge(f.use('saturated sodium hydrogencarbonate', '10 mL'), 'funnel'),
            f.react('funnel', 'contact'),
          ],
        },
      ],
    });
    expect(e.reactions[0]).toMatchObject({
      kind: 'side',
      limiting: 'hydrogen chloride',
      basis: 'assumed',
    });
    expect(e.gases[0]).toMatchObject({ substance: 'carbon dioxide' });
    expect(e.gases[0]!.amount_mmol).toBeCloseTo(5, 6);
  });

  it('wait for the quench where they are slow', () => {
    const moves = (trigger: 'contact' | 'quench') => [
      f.charge(f.use('acetic anhydride', '10 mmol'), 'flask'),
      f.charge(f.use('water', '10 mL'), 'flask'),
      f.react('flask', trigger),
    ];
    expect(runs(run({ lines: [{ verb: 'add', moves: moves('contact') }] }))).toEqual([]);
    expect(runs(run({ lines: [{ verb: 'quench', moves: moves('quench') }] }))).toHaveLength(1);
  });

  it('are counted before the limiting reagent is named', () => {
    // An allylation by zinc, whose acid bath eats part of the metal: both figures are said.
    const e = run({
      reactions: [f.reaction('benzaldehyde + Zn -> benzyl alcohol')],
      lines: [
        {
          verb: 'activate',
          moves: [
            f.charge(f.use('zinc', '12 mmol'), 'flask'),
            f.charge(f.use('1 M hydrochloric acid', '10 mL'), 'flask'),
            f.react('flask', 'activation'),
          ],
        },
        {
          verb: 'stir',
          moves: [
            f.charge(f.use('benzaldehyde', '10 mmol'), 'flask'),
            f.stir('flask'),
            f.react('flask'),
          ],
        },
      ],
    });
    expect(e.reactions[1]).toMatchObject({ limiting: 'zinc' });
    expect(e.reactions[1]!.extent_mmol).toBeCloseTo(7, 6);
    const said = e.diagnostics.find((d) => d.code === 'limiting-changes')!;
    expect(said.message).toMatch(/benzaldehyde \(10 mmol\).*zinc.*7 mmol/);
  });
});

describe('what is said of reactions', () => {
  it('that one never ran, and what was missing', () => {
    const e = run({
      reactions: [acidify],
      lines: [
        {
          verb: 'stir',
          moves: [f.charge(f.use('sodium benzoate', '1 g'), 'beaker'), f.stir('beaker')],
        },
      ],
    });
    expect(codes(e)).toEqual(['wait-without-reactants', 'reaction-never-ran', 'undisposed']);
    expect(e.diagnostics[1]!.message).toContain('hydrogen chloride is never charged');
  });

  it('but nothing while water, or what the quench brings, is awaited', () => {
    const e = run({
      reactions: [acidify],
      lines: [
        {
          verb: 'stir',
          moves: [f.charge(f.use('sodium benzoate', '1 g'), 'beaker'), f.stir('beaker')],
        },
        {
          verb: 'quench',
          moves: [
            f.charge(f.use('2 M hydrochloric acid', '5 mL'), 'beaker'),
            f.react('beaker', 'quench'),
          ],
        },
      ],
    });
    expect(codes(e)).toEqual(['undisposed']);
  });
});
