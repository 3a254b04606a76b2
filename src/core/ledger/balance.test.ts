import { describe, expect, it } from 'vitest';
import { readFormula } from '../chemistry/formula.ts';
import { molarMass } from '../chemistry/molar-mass.ts';
import type { Substance } from '../chemistry/substance.ts';
import { balances, checkBalance, holdingsUnder, massUnder } from './balance.ts';
import type { Posting } from './posting.ts';

function made(id: string, formula: string): Substance {
  const read = readFormula(formula);
  if (!read.ok) throw new Error(read.message);
  return {
    id,
    name: id,
    synonyms: [],
    composition: read.composition,
    molarMass_g_mol: molarMass(read.composition).value_g_mol,
    state: 'unknown',
    phase: 'salt',
    origin: 'formula',
    sources: {},
    hazardCodes: [],
  };
}

const substances = new Map(
  [made('hydrogen', 'H2'), made('oxygen', 'O2'), made('water', 'H2O')].map((s) => [s.id, s]),
);

function posting(from: string, to: string, substance: string, amount_mmol: number): Posting {
  const mass_g = (amount_mmol * substances.get(substance)!.molarMass_g_mol!) / 1000;
  return { step: '1', from, to, substance, amount_mmol, mass_g, basis: 'planned' };
}

const burning = (water_mmol: number): Posting[] => [
  posting('stock/hydrogen', 'vessel/a/vapour', 'hydrogen', 20),
  posting('stock/oxygen', 'vessel/a/vapour', 'oxygen', 10),
  posting('vessel/a/vapour', 'reaction/r', 'hydrogen', 20),
  posting('vessel/a/vapour', 'reaction/r', 'oxygen', 10),
  posting('reaction/r', 'vessel/a/aqueous', 'water', water_mmol),
];

describe('balances', () => {
  it('sums by account and by the path above it', () => {
    const book = balances(burning(20));
    expect(massUnder(book, 'vessel/a')).toBeCloseTo(0.3603, 4);
    expect(massUnder(book, 'vessel')).toBeCloseTo(massUnder(book, 'vessel/a/aqueous'), 12);
    expect(holdingsUnder(book, 'stock').get('hydrogen')!.amount_mmol).toBe(-20);
  });
});

describe('the check of the balance', () => {
  const whats = (postings: Posting[]) => checkBalance(postings, substances).map((i) => i.what);
  it('passes what balances', () => expect(whats(burning(20))).toEqual([]));
  it('finds a reaction that makes too much', () => {
    expect(whats(burning(21))).toEqual(['mass', 'element', 'element']);
  });
  it('finds a vessel that gives what it has not got', () => {
    expect(whats([posting('vessel/a/aqueous', 'waste/x', 'water', 1)])).toEqual([
      'less than nothing',
    ]);
  });
  it('finds a mass that does not fit its amount', () => {
    const wrong = { ...posting('stock/water', 'vessel/a/aqueous', 'water', 1), mass_g: 1 };
    expect(whats([wrong])).toEqual(['molar mass', 'molar mass']);
  });
});
