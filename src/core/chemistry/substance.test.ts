import { describe, expect, it } from 'vitest';
import sourceTable from '../facts/substance_sources.json' with { type: 'json' };
import substanceTable from '../facts/substances.json' with { type: 'json' };
import { rowsOf } from '../facts/table.ts';
import { keyOf } from './name-key.ts';
import { builtInSubstances, isCasNumber, makeSubstance } from './substance.ts';
import type { SubstanceFacts } from './substance.ts';

describe('data/substances.csv', () => {
  const rows = rowsOf(substanceTable);
  const keys = new Set(rowsOf(sourceTable).map((row) => row['key']));
  const honest = new Set([...keys, 'from memory', 'common practice']);

  it('holds the substances of the trade', () => {
    expect(builtInSubstances().length).toBeGreaterThan(600);
    expect(builtInSubstances()).toBe(builtInSubstances());
  });
  it('has a CAS number with the right check digit, or none', () => {
    for (const row of rows)
      if (row['cas'] !== '') expect(isCasNumber(row['cas']!), row['name']).toBe(true);
  });
  it('names the source of every figure', () => {
    for (const row of rows) {
      expect(honest, `${row['name']}: ${row['source']}`).toContain(row['source']);
      for (const [figure, source] of [
        ['density_g_mL', 'density_source'],
        ['mp_C', 'mp_source'],
        ['bp_C', 'bp_source'],
        ['hazard_codes', 'hazard_source'],
      ] as const) {
        const name = `${row['name']}, ${figure}`;
        expect(row[source] !== '', name).toBe(row[figure] !== '');
        if (row[source] !== '') expect(honest, name).toContain(row[source]);
      }
    }
  });
  it('gives no name to two substances', () => {
    const seen = new Map<string, string>();
    for (const substance of builtInSubstances())
      for (const name of [substance.name, ...substance.synonyms]) {
        const other = seen.get(keyOf(name));
        expect(other ?? substance.name, name).toBe(substance.name);
        seen.set(keyOf(name), substance.name);
      }
  });
  it('keeps its figures in the bounds of what can be', () => {
    const solids = new Set(['solid', 'unknown']);
    for (const s of builtInSubstances()) {
      if (s.density_g_mL !== undefined) expect(s.density_g_mL, s.name).toBeGreaterThan(0.5);
      if (s.density_g_mL !== undefined) expect(s.density_g_mL, s.name).toBeLessThan(13);
      if (s.meltingPoint_C !== undefined && s.boilingPoint_C !== undefined)
        expect(s.meltingPoint_C, s.name).toBeLessThan(s.boilingPoint_C);
      if (s.state === 'liquid' && s.meltingPoint_C !== undefined)
        expect(s.meltingPoint_C, s.name).toBeLessThan(20.1);
      if (solids.has(s.state) && s.meltingPoint_C !== undefined)
        expect(s.meltingPoint_C, s.name).toBeGreaterThan(20);
      if (s.state === 'gas' && s.boilingPoint_C !== undefined)
        expect(s.boilingPoint_C, s.name).toBeLessThan(20.5);
      expect(['gas', 'water', 'salt', 'miscible', 'organic', 'insoluble']).toContain(s.phase);
    }
  });
  it('draws neutral compounds: no row carries a charge', () => {
    for (const s of builtInSubstances())
      if (s.composition !== undefined) expect(s.composition.charge, s.name).toBe(0);
  });
});

describe('makeSubstance', () => {
  const cases: readonly (readonly [string, SubstanceFacts, string])[] = [
    ['a ketone', { name: 'K', smiles: 'CC(=O)CC' }, 'organic'],
    ['a salt drawn in ions', { name: 'S', smiles: '[Na+].[Cl-]' }, 'salt'],
    ['a salt by formula', { name: 'S', formula: 'ZnSO4·7H2O' }, 'salt'],
    ['a metal', { name: 'M', formula: 'Zn' }, 'insoluble'],
    ['an oxide', { name: 'O', formula: 'Al2O3' }, 'insoluble'],
    ['water', { name: 'W', smiles: 'O' }, 'water'],
    ['a gas', { name: 'G', formula: 'SO2', state: 'gas' }, 'gas'],
    ['a mineral acid', { name: 'A', formula: 'HClO3' }, 'salt'],
    ['mass only', { name: 'sand' }, 'insoluble'],
    ['a mass-only liquid', { name: 'oil', state: 'liquid' }, 'organic'],
  ];
  it.each(cases)('%s', (_, facts, phase) => {
    const made = makeSubstance(facts);
    expect(made.ok && made.substance.phase).toBe(phase);
  });

  it('works out the molar mass and keeps what is given', () => {
    const made = makeSubstance({
      name: 'Compound A',
      smiles: 'CC1CCC(=O)CC1',
      formula: 'C7H12O',
      density_g_mL: 0.914,
      densityT_C: 20,
    });
    expect(made.ok).toBe(true);
    if (!made.ok) return;
    expect(made.substance.id).toBe('compound a');
    expect(made.substance.molarMass_g_mol).toBeCloseTo(112.17, 2);
    expect(made.substance.origin).toBe('document');
    expect(made.substance.sources).toEqual({ identity: 'this document', density: 'this document' });
    expect('meltingPoint_C' in made.substance).toBe(false);
  });

  const wrong: readonly (readonly [string, SubstanceFacts, RegExp])[] = [
    ['no name', { name: ' ' }, /without a name/],
    ['a broken SMILES', { name: 'X', smiles: 'C1CC' }, /SMILES of X/],
    ['a broken formula', { name: 'X', formula: 'H2Xx' }, /formula of X/],
    ['two that disagree', { name: 'X', smiles: 'CCO', formula: 'CH4O' }, /C2H6O.*CH4O/],
    ['a wrong CAS', { name: 'X', cas: '64-17-6' }, /not a CAS registry number/],
    ['a density of 0', { name: 'X', density_g_mL: 0 }, /density/],
  ];
  it.each(wrong)('refuses %s', (_, facts, message) => {
    const made = makeSubstance(facts);
    expect(made.ok).toBe(false);
    if (!made.ok) expect(made.message).toMatch(message);
  });
});

describe('isCasNumber', () => {
  it.each(['7732-18-5', '64-17-5', '7647-01-0', '16940-66-2'])('%s', (cas) =>
    expect(isCasNumber(cas)).toBe(true),
  );
  it.each(['7732-18-4', '64-71-5', '2001-01-05', '', '7732185'])('not %s', (cas) =>
    expect(isCasNumber(cas)).toBe(false),
  );
});
