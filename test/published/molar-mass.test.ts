import { describe, expect, test } from 'vitest';
import published from './molar-mass.json' with { type: 'json' };
import type { Composition } from '../../src/core/chemistry/composition.ts';
import { readFormula } from '../../src/core/chemistry/formula.ts';
import { molarMass } from '../../src/core/chemistry/molar-mass.ts';
import { readSmiles } from '../../src/core/chemistry/smiles.ts';

function read(row: { formula?: string; smiles?: string }): Composition {
  const reading = row.smiles === undefined ? readFormula(row.formula!) : readSmiles(row.smiles);
  if (!reading.ok) throw new Error(reading.message);
  return reading.composition;
}

describe('molar masses agree with published ones', () => {
  test.each(published.molarMasses)('$name $published_g_mol ($source)', (row) => {
    const ours = molarMass(read(row)).value_g_mol;
    expect(Math.abs(ours - row.published_g_mol)).toBeLessThanOrEqual(row.within + 1e-9);
    // More than the last digit only where the source is known to use other weights.
    if (row.within > 0.001) expect(row.why).toBeTruthy();
  });

  test('thirty compounds and more', () => {
    expect(published.molarMasses.length).toBeGreaterThanOrEqual(30);
  });

  test(`uncertainty of potassium hydrogen phthalate (${published.method.source})`, () => {
    const { formula, weights, published_g_mol, u_g_mol } = published.method;
    const given = new Map(Object.entries(weights));
    const ours = molarMass(read({ formula }), (symbol) => {
      const pair = given.get(symbol);
      return pair && { weight: pair[0]!, u: pair[1]! / Math.sqrt(3) };
    });
    expect(ours.value_g_mol).toBeCloseTo(published_g_mol, 4);
    expect(ours.u_g_mol).toBeCloseTo(u_g_mol, 4);
  });
});
