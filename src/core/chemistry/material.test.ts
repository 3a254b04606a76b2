import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import materialTable from '../facts/materials.json' with { type: 'json' };
import { rowsOf } from '../facts/table.ts';
import { readMaterial } from './material.ts';
import type { Material, MaterialExtra } from './material.ts';
import { shelfNames } from './shelf.ts';
import { makeSubstance, tableWith } from './substance.ts';

const table = tableWith([]);

function read(text: string, extra: MaterialExtra = {}): Material {
  const reading = readMaterial(text, table, extra);
  if (!reading.ok) throw new Error(`${text}: ${reading.message}`);
  return reading.material;
}

/** The composition as `name percent`, in one line. */
function inside(material: Material): string {
  return material.composition
    .map(({ substance, massFraction }) => `${substance.name} ${(100 * massFraction).toFixed(1)}`)
    .join(' + ');
}

describe('readMaterial', () => {
  const cases: readonly (readonly [string, string, number | undefined])[] = [
    ['sodium borohydride', 'sodium borohydride 100.0', 1.07],
    ['1 M hydrochloric acid', 'hydrogen chloride 3.6 + water 96.4', 1.0159],
    ['hydrochloric acid (1 M)', 'hydrogen chloride 3.6 + water 96.4', 1.0159],
    ['1M aq. HCl', 'hydrogen chloride 3.6 + water 96.4', 1.0159],
    ['HCl (1 M, aqueous)', 'hydrogen chloride 3.6 + water 96.4', 1.0159],
    ['0,5 M HCl', 'hydrogen chloride 1.8 + water 98.2', 1.0071],
    ['2 M aqueous sodium hydroxide', 'sodium hydroxide 7.4 + water 92.6', 1.0803],
    ['sodium hydroxide 2 mol/L', 'sodium hydroxide 7.4 + water 92.6', 1.0803],
    ['12 N sodium hydroxide', 'sodium hydroxide 34.8 + water 65.2', 1.3781],
    ['2 N sulfuric acid', 'sulfuric acid 9.2 + water 90.8', 1.0608],
    ['5 % aqueous sodium bicarbonate', 'sodium hydrogencarbonate 5.0 + water 95.0', 1.0337],
    ['5% sodium bicarbonate solution', 'sodium hydrogencarbonate 5.0 + water 95.0', 1.0337],
    ['sat. aq. NaHCO3', 'sodium hydrogencarbonate 8.7 + water 91.3', 1.0609],
    ['saturated aqueous sodium chloride', 'sodium chloride 26.4 + water 73.6', 1.2002],
    ['brine', 'sodium chloride 26.4 + water 73.6', 1.2002],
    ['saturated ammonium chloride', 'ammonium chloride 27.3 + water 72.7', 1.0766],
    ['saturated sodium carbonate solution', 'sodium carbonate 17.9 + water 82.1', 1.1907],
    ['conc. sulfuric acid', 'sulfuric acid 96.0 + water 4.0', 1.8355],
    ['concentrated HCl', 'hydrogen chloride 37.0 + water 63.0', 1.1838],
    ['hydrochloric acid, concentrated', 'hydrogen chloride 37.0 + water 63.0', 1.1838],
    ['85 % phosphoric acid', 'phosphoric acid 85.0 + water 15.0', 1.6891],
    ['glacial acetic acid', 'acetic acid 100.0', 1.0477],
    ['95 % ethanol', 'ethanol 92.4 + water 7.6', 0.8113],
    ['cold 95 % ethanol', 'ethanol 92.4 + water 7.6', 0.8113],
    ['50% aqueous ethanol', 'ethanol 42.4 + water 57.6', 0.9302],
    ['absolute ethanol', 'ethanol 100.0', 0.7893],
    ['glycerol 90 %', 'glycerol 90.0 + water 10.0', 1.2351],
    ['formaldehyde 40 %', 'formaldehyde 37.0 + water 63.0', 1.09],
    ['household bleach', 'sodium hypochlorite 5.3 + water 94.8', 1.08],
    ['30 % hydrogen peroxide', 'hydrogen peroxide 30.0 + water 70.0', 1.1126],
    ['sulfuric acid sp gr 1.32', 'sulfuric acid 41.9 + water 58.1', 1.32],
    ['hydrochloric acid density 1.138', 'hydrogen chloride 27.8 + water 72.2', 1.138],
    ['zinc dust', 'zinc 100.0', 7.134],
    ['zinc dust 90 %', 'zinc 90.0 + inert remainder 10.0', 7.134],
    ['zinc dust 90–100 %', 'zinc 95.0 + inert remainder 5.0', 7.134],
    ['potassium hydroxide 85 %', 'potassium hydroxide 85.0 + inert remainder 15.0', 2.044],
    ['10 % sodium hydroxide', 'sodium hydroxide 10.0 + water 90.0', 1.1089],
    ['mCPBA 77 %', '3-chloroperoxybenzoic acid 77.0 + inert remainder 23.0', undefined],
    ['sodium hydride 60 % in mineral oil', 'sodium hydride 60.0 + mineral oil 40.0', undefined],
    ['10 % Pd/C', 'palladium 10.0 + activated carbon 90.0', undefined],
    ['butyllithium (1.6 M in hexane)', 'butyllithium 15.5 + hexane 84.5', 0.6606],
    ['1 M HCl in diethyl ether', 'hydrogen chloride 5.1 + diethyl ether 94.9', 0.7138],
    ['1 M solution of HCl in diethyl ether', 'hydrogen chloride 5.1 + diethyl ether 94.9', 0.7138],
    ['0.5 M ethanolic potassium hydroxide', 'potassium hydroxide 3.6 + ethanol 96.4', 0.7893],
    ['1 M KOH in 95 % ethanol', 'potassium hydroxide 6.9 + ethanol 86.0 + water 7.1', 0.8113],
    ['iodine in ethanol 2 %', 'iodine 2.0 + ethanol 98.0', 0.7893],
    ['ice', 'water 100.0', 0.9982],
    ['ice water', 'water 100.0', 0.9982],
    ['petroleum ether (40–60)', 'petroleum ether 40–60 100.0', 0.65],
    ['molecular sieves', 'molecular sieves 100.0', undefined],
    ['celite', 'diatomaceous earth 100.0', undefined],
    ['copper(II) sulphate pentahydrate', 'copper(II) sulfate pentahydrate 100.0', 2.286],
  ];
  it.each(cases)('%s', (text, composition, density) => {
    const material = read(text);
    expect(inside(material)).toBe(composition);
    if (density === undefined) expect(material.density_g_mL).toBeUndefined();
    else expect(material.density_g_mL).toBeCloseTo(density, 3);
  });

  const words: readonly (readonly [string, readonly string[], string | undefined])[] = [
    ['activated zinc powder', ['activated'], 'powder'],
    ['magnesium turnings', [], 'turnings'],
    ['ice-cold water', ['ice-cold'], undefined],
    ['crushed ice', ['ice'], undefined],
    ['distilled water', ['distilled'], undefined],
    ['anhydrous magnesium sulfate', ['anhydrous'], undefined],
    ['sodium sulphate, anhydrous', ['anhydrous'], undefined],
    ['dry diethyl ether', ['dry'], undefined],
    ['benzaldehyde (freshly distilled)', ['freshly distilled'], undefined],
    ['cold 5 % aqueous sodium carbonate', ['cold'], undefined],
    ['potassium hydroxide pellets', [], 'pellets'],
  ];
  it.each(words)('%s keeps its other words', (text, conditions, form) => {
    const material = read(text);
    expect(material.conditions).toEqual(conditions);
    expect(material.form).toBe(form);
    expect(material.name).toBe(text);
  });

  const assumptions: readonly (readonly [string, RegExp | undefined])[] = [
    ['hydrochloric acid', /taken as concentrated hydrochloric acid, 37 % w\/w/],
    ['HCl', /taken as concentrated hydrochloric acid/],
    ['dilute hydrochloric acid', /2 mol\/L \(common practice\)/],
    ['aqueous ammonia', /28 %/],
    ['hydrogen peroxide', /hydrogen peroxide 30 %/],
    ['sodium hydride', /60 %/],
    ['zinc dust 90–100 %', /its middle/],
    ['50 % ethanol', /by volume/],
    ['1 N sodium dithionite', /one equivalent/],
    ['hydrogen chloride', undefined],
    ['1 M hydrochloric acid', undefined],
    ['brine', undefined],
    ['ethanol', undefined],
    ['5 % w/w sodium hydroxide', undefined],
  ];
  it.each(assumptions)('%s says what was assumed', (text, assumed) => {
    const said = read(text).assumed.join('; ');
    if (assumed === undefined) expect(said).toBe('');
    else expect(said).toMatch(assumed);
  });

  const wrong: readonly (readonly [string, 'unknown' | 'ambiguous' | 'strength', RegExp])[] = [
    ['', 'unknown', /without a name/],
    ['1 M blarg', 'unknown', /"blarg"/],
    ['sodium borohydrde', 'unknown', /No substance/],
    ['naphthol', 'ambiguous', /1-naphthol/],
    ['petroleum ether', 'ambiguous', /40–60 or petroleum ether 60–80/],
    ['aqueous sodium hydroxide', 'strength', /is not written/],
    ['sodium hydroxide solution', 'strength', /is not written/],
    ['20 M sodium chloride', 'strength', /more than the solution can hold/],
    ['5 M 10 % HCl', 'strength', /Two strengths/],
    ['120 % HCl', 'strength', /more than all/],
    ['0 M HCl', 'strength', /cannot be/],
    ['zinc dust 120 %', 'strength', /assay/],
    ['conc ethanol', 'strength', /concentrated/],
    ['1 M water', 'strength', /means nothing/],
    ['1 M HCl in blarg', 'unknown', /"blarg"/],
    ['x'.repeat(300), 'unknown', /too long/],
  ];
  it.each(wrong)('%s is refused', (text, kind, message) => {
    const reading = readMaterial(text, table);
    expect(reading.ok).toBe(false);
    if (reading.ok) return;
    expect(reading.kind).toBe(kind);
    expect(reading.message).toMatch(message);
    expect(reading.hint).not.toBe('');
  });

  it('names what is near, and never takes it', () => {
    const reading = readMaterial('1 M sodium hydroxde', table);
    expect(reading.ok).toBe(false);
    if (!reading.ok) expect(reading.near).toContain('sodium hydroxide');
  });

  it('takes assay and density from beside the name', () => {
    expect(inside(read('potassium hydroxide', { purity_percent: 85 }))).toBe(
      'potassium hydroxide 85.0 + inert remainder 15.0',
    );
    expect(read('ethanol', { density_g_mL: 0.79 }).density_g_mL).toBe(0.79);
    expect(readMaterial('zinc', table, { purity_percent: 0 }).ok).toBe(false);
  });

  it('lets a document’s own substance win', () => {
    const made = makeSubstance({ name: 'brine', smiles: 'CCO' });
    if (!made.ok) throw new Error(made.message);
    const reading = readMaterial('brine', tableWith([made.substance]));
    expect(reading.ok && reading.material.substance).toBe(made.substance);
  });

  it('gives mass fractions that add to 1, or a reason, whatever is written', () => {
    const piece = fc.constantFrom(
      '1 M', '5 %', '95%', 'aq.', 'saturated', 'conc.', 'cold', 'HCl', 'ethanol', 'sodium chloride',
      'zinc', 'dust', 'in', 'water', 'solution of', '(2 M in THF)', 'ice', 'sp gr 1.2', '%', '(', ')',
      'N', '2', 'brine', ',', 'hydrochloric acid', 'v/v', '', '60 to 70 %',
    ); // prettier-ignore
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 6 }), (pieces) => {
        const reading = readMaterial(pieces.join(' '), table);
        if (!reading.ok) {
          expect(reading.message).not.toBe('');
          return;
        }
        const { composition, density_g_mL } = reading.material;
        const sum = composition.reduce((all, share) => all + share.massFraction, 0);
        expect(sum).toBeCloseTo(1, 9);
        for (const share of composition) expect(share.massFraction).toBeGreaterThan(0);
        if (density_g_mL !== undefined) expect(density_g_mL).toBeGreaterThan(0);
      }),
      { numRuns: 500 },
    );
    fc.assert(
      fc.property(fc.string({ maxLength: 250 }), (text) => {
        expect(typeof readMaterial(text, table).ok).toBe('boolean');
      }),
    );
  });
});

describe('data/materials.csv', () => {
  it('reads under every name, and names known substances', () => {
    for (const row of rowsOf(materialTable)) {
      for (const name of [row['name']!, ...row['synonyms']!.split('; ').filter(Boolean)])
        expect(readMaterial(name, table).ok, name).toBe(true);
      expect(table.byName.has(row['substance']!.toLowerCase()), row['name']).toBe(true);
    }
    expect(shelfNames()).toContain('brine');
  });
});
