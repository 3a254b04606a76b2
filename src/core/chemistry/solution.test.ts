import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import densityTable from '../facts/solution_density.json' with { type: 'json' };
import conventionTable from '../facts/solution_conventions.json' with { type: 'json' };
import solubilityTable from '../facts/solubility.json' with { type: 'json' };
import { rowsOf } from '../facts/table.ts';
import { compose, composeFromDensity, molarityOf } from './solution.ts';
import type { Strength } from './solution.ts';
import { densityCurve, densityOn, solubilityInWater, strongest } from './solution-table.ts';
import { tableWith } from './substance.ts';
import type { Substance } from './substance.ts';

const table = tableWith([]);
const the = (name: string): Substance => table.byName.get(name.toLowerCase())!;
const water = the('water');
const solutes = [...new Set(rowsOf(densityTable).map((row) => row['solute']!))];

describe('the tables of solutions', () => {
  it('speak of known substances only', () => {
    for (const name of solutes) expect(table.byName.has(name.toLowerCase()), name).toBe(true);
    for (const row of rowsOf(solubilityTable))
      expect(table.byName.has(row['solute']!.toLowerCase()), row['solute']).toBe(true);
    for (const row of rowsOf(conventionTable))
      expect(table.byName.has(row['substance']!.toLowerCase()), row['substance']).toBe(true);
  });
  it('rise in strength from row to row, and in molarity', () => {
    for (const name of solutes) {
      const { points } = densityCurve(name.toLowerCase())!;
      for (let i = 1; i < points.length; i++) {
        const [a, b] = [points[i - 1]!, points[i]!];
        expect(b.massFraction, name).toBeGreaterThan(a.massFraction);
        const molarMass = the(name).molarMass_g_mol!;
        expect(molarityOf(b.massFraction, b.density_g_mL, molarMass), name).toBeGreaterThan(
          molarityOf(a.massFraction, a.density_g_mL, molarMass),
        );
        // No jump where one source of the table gives way to another: 3 % in a step of 2 %.
        if (b.massFraction - a.massFraction < 0.021)
          expect(Math.abs(b.density_g_mL / a.density_g_mL - 1), `${name} ${i}`).toBeLessThan(0.03);
      }
    }
  });
  it('give a row back exactly, and nothing far beyond the last', () => {
    for (const name of solutes) {
      const curve = densityCurve(name.toLowerCase())!;
      for (const point of curve.points)
        expect(densityOn(curve, point.massFraction)!.density_g_mL).toBeCloseTo(
          point.density_g_mL,
          9,
        );
      expect(densityOn(curve, strongest(curve) + 0.001)).toBeUndefined();
    }
  });
});

describe('compose', () => {
  const strong: readonly (readonly [string, Strength, string, number, number])[] = [
    ['sodium chloride', { kind: 'saturated' }, 'water', 0.2641, 1.2],
    ['ethanol', { kind: 'volumePercent', value: 50 }, 'water', 0.4243, 0.9302],
    ['sodium thiosulfate', { kind: 'massVolumePercent', value: 10 }, 'water', 0.0929, 1.0765],
    ['hydrogen chloride', { kind: 'dilute' }, 'water', 0.0706, 1.033],
    ['iodine', { kind: 'molarity', value: 0.1 }, 'ethanol', 0.0322, 0.7893],
    ['acetone', { kind: 'volumePercent', value: 50 }, 'water', 0.4401, 0.8913],
  ];
  it.each(strong)('%s %j in %s', (solute, strength, solvent, massFraction, density) => {
    const made = compose(the(solute), strength, the(solvent));
    expect(made.ok).toBe(true);
    if (!made.ok) return;
    expect(made.massFraction).toBeCloseTo(massFraction, 3);
    expect(made.density_g_mL).toBeCloseTo(density, 3);
  });

  it('says what it assumed', () => {
    const assumed = (name: string, strength: Strength, solvent: string): string => {
      const made = compose(the(name), strength, the(solvent));
      return made.ok ? made.assumed.join('; ') : made.message;
    };
    expect(assumed('hydrogen chloride', { kind: 'molarity', value: 1 }, 'water')).toBe('');
    expect(assumed('hydrogen chloride', { kind: 'dilute' }, 'water')).toMatch(/2 mol\/L/);
    expect(assumed('iodine', { kind: 'molarity', value: 0.1 }, 'ethanol')).toMatch(/not tabulated/);
    expect(assumed('acetone', { kind: 'volumePercent', value: 50 }, 'water')).toMatch(/add up/);
    expect(assumed('hydrogen iodide', { kind: 'massPercent', value: 59 }, 'water')).toMatch(
      /beyond the table/,
    );
  });

  const wrong: readonly (readonly [string, Strength, string, RegExp])[] = [
    ['sodium chloride', { kind: 'molarity', value: 20 }, 'water', /more than .* can hold/],
    ['sodium benzoate', { kind: 'molarity', value: 8 }, 'water', /more than .* can hold/],
    ['sodium chloride', { kind: 'massPercent', value: 120 }, 'water', /more than all/],
    ['sodium chloride', { kind: 'massPercent', value: 0 }, 'water', /cannot be/],
    ['sodium chloride', { kind: 'massPercent', value: NaN }, 'water', /cannot be/],
    ['silica gel', { kind: 'saturated' }, 'water', /not in the table/],
    ['starch', { kind: 'molarity', value: 1 }, 'water', /molar mass is not known/],
    ['aniline', { kind: 'dilute' }, 'water', /nobody can tell/],
    ['sodium chloride', { kind: 'saturated' }, 'ethanol', /not in the table/],
  ];
  it.each(wrong)('refuses %s %j in %s', (solute, strength, solvent, message) => {
    const made = compose(the(solute), strength, the(solvent));
    expect(made.ok).toBe(false);
    if (!made.ok) expect(made.message).toMatch(message);
  });

  it('goes from mass percent to molarity and back, for every tabulated solute', () => {
    fc.assert(
      fc.property(fc.constantFrom(...solutes), fc.double({ min: 0.01, max: 1 }), (name, share) => {
        fc.pre(Number.isFinite(share));
        const solute = the(name);
        const w = share * densityCurve(solute.id)!.points.at(-1)!.massFraction;
        const there = compose(solute, { kind: 'massPercent', value: 100 * w }, water);
        if (!there.ok) throw new Error(there.message);
        const value = molarityOf(w, there.density_g_mL!, solute.molarMass_g_mol!);
        const back = compose(solute, { kind: 'molarity', value }, water);
        if (!back.ok) throw new Error(back.message);
        expect(back.massFraction).toBeCloseTo(w, 8);
        expect(back.density_g_mL).toBeCloseTo(there.density_g_mL!, 7);
      }),
    );
  });

  it('goes from density to strength and back', () => {
    for (const [name, density] of [
      ['sulfuric acid', 1.32],
      ['hydrogen chloride', 1.138],
      ['ammonia', 0.91],
    ] as const) {
      const made = composeFromDensity(the(name), density);
      expect(made.ok).toBe(true);
      if (!made.ok) continue;
      const curve = densityCurve(name)!;
      expect(densityOn(curve, made.massFraction)!.density_g_mL).toBeCloseTo(density, 9);
    }
    expect(composeFromDensity(the('sulfuric acid'), 2.5).ok).toBe(false);
    expect(composeFromDensity(the('toluene'), 0.9).ok).toBe(false);
  });
});

describe('solubilityInWater', () => {
  it('interpolates between tabulated temperatures and never beyond them', () => {
    const at = (T: number): number | undefined =>
      solubilityInWater('potassium nitrate', T)?.massFraction;
    expect(at(20)).toBeCloseTo(0.242, 3);
    const [cold, warm] = [at(20)!, at(30)!];
    expect(at(25)!).toBeGreaterThan(cold);
    expect(at(25)!).toBeLessThan(warm);
    expect(at(-40)).toBeUndefined();
    expect(at(300)).toBeUndefined();
    expect(solubilityInWater('silica gel')).toBeUndefined();
  });
});
