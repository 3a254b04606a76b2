import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { balances, checkBalance, massUnder } from '../ledger/balance.ts';
import type { Move, ReactTrigger, Selector, SplitRule } from '../experiment/move.ts';
import type { Posting } from '../ledger/posting.ts';
import { netKey } from './actuals.ts';
import { enact } from './enact.ts';
import * as f from './fixture.ts';

/** What must hold for any order of moves: docs/spec/ledger.md, "What must always hold". */

const RUNS = Number(process.env['FUZZ_RUNS'] ?? 300);
const VESSELS = ['a', 'b', 'c', 'd'];
const vessel = fc.constantFrom(...VESSELS);
const material = fc.constantFrom(
  'sodium benzoate',
  '2 M hydrochloric acid',
  'sodium hydrogencarbonate',
  'zinc',
  'ethanol',
  'diethyl ether',
  'acetic anhydride',
  'magnesium sulfate',
  'water',
  'silica gel',
  'molecular sieves',
);
const amount = fc.constantFrom(
  '0.5 g',
  '3 g',
  '2 mmol',
  '10 mmol',
  'excess',
  'until pH 1',
  '2 equiv',
);
const part = fc.oneof(
  fc.constantFrom('solid', 'organic', 'aqueous', 'vapour', 'liquid', 'upper', 'lower' as const),
  fc.record({
    kind: fc.constant('fraction' as const),
    fraction: fc.double({ min: 0, max: 1.2, noNaN: true }),
  }),
  fc.record({
    kind: fc.constant('volume' as const),
    volume_mL: fc.double({ min: 0, max: 30, noNaN: true }),
  }),
  fc.record({
    kind: fc.constant('mass' as const),
    mass_g: fc.double({ min: 0, max: 30, noNaN: true }),
  }),
  fc.constant({ kind: 'all' as const }),
) as fc.Arbitrary<Parameters<typeof f.pour>[2] & (string | Selector)>;
const rule: fc.Arbitrary<SplitRule> = fc.constantFrom<SplitRule>(
  { rule: 'layers' },
  { rule: 'filter', keep: 'solid' },
  { rule: 'filter', keep: 'liquid' },
  { rule: 'evaporate', toDryness: true },
  { rule: 'evaporate', toDryness: false, only: ['ethanol'], upTo_C: 60 },
  { rule: 'distil', steam: true },
  { rule: 'distil', steam: false, from_C: 70, to_C: 90 },
  { rule: 'dry' },
  { rule: 'crystallise' },
  { rule: 'sublime' },
  { rule: 'azeotrope' },
);
const trigger = fc.constantFrom<ReactTrigger>(
  'wait',
  'separation',
  'contact',
  'activation',
  'quench',
  'stated',
);
const move: fc.Arbitrary<Move> = fc.oneof(
  {
    weight: 4,
    arbitrary: fc.tuple(material, amount, vessel).map(([m, a, v]) => f.charge(f.use(m, a), v)),
  },
  { weight: 1, arbitrary: vessel.map((v) => f.gas(f.use('carbon dioxide', '5 mmol'), v)) },
  { weight: 4, arbitrary: fc.tuple(vessel, vessel, part).map(([v, w, p]) => f.pour(v, w, p)) },
  { weight: 1, arbitrary: fc.tuple(vessel, part).map(([v, p]) => f.discard(v, 'waste', p)) },
  { weight: 3, arbitrary: fc.tuple(vessel, rule).map(([v, r]) => f.split(v, r)) },
  { weight: 3, arbitrary: fc.tuple(vessel, trigger).map(([v, t]) => f.react(v, t)) },
  { weight: 1, arbitrary: vessel.map((v) => f.weigh(v)) },
  { weight: 1, arbitrary: fc.tuple(vessel, fc.boolean()).map(([v, c]) => f.reflux(v, c)) },
  { weight: 1, arbitrary: vessel.map((v) => f.stir(v)) },
);
const lines = fc.array(fc.array(move, { maxLength: 6 }), { maxLength: 12 });

const acidify = f.reaction('sodium benzoate + HCl -> benzoic acid + NaCl');
const open = { ...f.reaction('benzoic acid + ethanol -> ethyl benzoate'), id: 'open' };
const mineral = { ...f.reaction('zinc + 2 HCl -> ZnCl2 + H2'), id: 'zinc' };
const reactions = [{ ...acidify, conversion: 0.7 }, { ...open, conversion: 0.5 }, mineral];

/** Vessels that give, at some posting, what they have not yet got. */
function overdrawn(postings: readonly Posting[]): string[] {
  const book = new Map<string, number>();
  const found: string[] = [];
  for (const p of postings) {
    if (!(p.mass_g >= 0)) found.push(`${p.step} ${p.substance}: ${p.mass_g} g`);
    for (const [account, sign] of [
      [p.from, -1],
      [p.to, 1],
    ] as const) {
      const key = `${account} ${p.substance}`;
      const mass_g = (book.get(key) ?? 0) + sign * p.mass_g;
      book.set(key, mass_g);
      if (account.startsWith('vessel/') && mass_g < -1e-9) found.push(`${p.step} ${key}`);
    }
  }
  return found;
}

describe('whatever the order of moves', () => {
  it('mass, elements and charge balance and nothing is less than nothing', () => {
    fc.assert(
      fc.property(lines, fc.double({ min: 0, max: 20, noNaN: true }), (moves, net_g) => {
        const program = f.program({
          reactions,
          products: ['benzoic acid'],
          vessels: { a: { shape: 'separatory funnel', capacity_mL: 60 }, b: { shape: 'filter' } },
          lines: moves.map((m) => ({ verb: 'add' as const, moves: m })),
        });
        const nets = new Map(
          moves.flatMap((_, i) => VESSELS.map((v) => [netKey(String(i + 1), v), net_g] as const)),
        );
        for (const actuals of [undefined, { charges: new Map(), nets }]) {
          const e = enact(program, f.TABLE, undefined, actuals);
          expect(checkBalance(e.postings, e.substances)).toEqual([]);
          for (const v of e.final)
            for (const p of v.phases)
              for (const c of p.contents) expect(c.mass_g).toBeGreaterThanOrEqual(-1e-9);
          const book = balances(e.postings);
          for (const v of e.final) {
            const mass_g = massUnder(book, `vessel/${v.vessel}`);
            const vapour_g = massUnder(book, `vessel/${v.vessel}/vapour`);
            expect(v.mass_g).toBeCloseTo(mass_g - vapour_g, 6);
          }
          expect(overdrawn(e.postings)).toEqual([]);
        }
      }),
      { numRuns: RUNS },
    );
  });

  it('one run says the same as another', () => {
    fc.assert(
      fc.property(lines, (moves) => {
        const program = f.program({
          reactions,
          lines: moves.map((m) => ({ verb: 'add' as const, moves: m })),
        });
        expect(enact(program, f.TABLE).postings).toEqual(enact(program, f.TABLE).postings);
      }),
      { numRuns: Math.ceil(RUNS / 5) },
    );
  });
});
