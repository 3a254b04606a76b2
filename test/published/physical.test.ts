import { describe, expect, it } from 'vitest';
import { boilingAt, phiOf, toKPa } from '../../src/core/evidence/boiling/pressure.ts';
import { associationOf, boilingAtPressure } from '../../src/core/evidence/boiling/pressure.ts';
import { judgeDensity } from '../../src/core/evidence/density/judge.ts';
import { pycnometerDensity, waterDensity } from '../../src/core/evidence/density/water.ts';
import {
  GAS_CONSTANT,
  cryoscopicConstant,
  fusionOf,
  impurityShare,
} from '../../src/core/evidence/melting/fusion.ts';
import { judgeMelting } from '../../src/core/evidence/melting/judge.ts';
import { stemCorrection } from '../../src/core/evidence/melting/thermometer.ts';
import {
  indexAt,
  indexWithUncertainty,
  shareByIndex,
  waterIndex,
} from '../../src/core/evidence/refraction/index-at.ts';
import {
  enantiomerShares,
  enantiomericExcess,
  specificRotation,
} from '../../src/core/evidence/rotation/specific.ts';
import type { Subject } from '../../src/core/evidence/subject.ts';
import { tableWith } from '../../src/core/chemistry/substance.ts';
import { exact, standardUncertainty } from '../../src/core/quantity/uncertain.ts';
import published from './physical.json' with { type: 'json' };

const table = tableWith();
const the = (name: string) => table.byName.get(name)!;
const product = (name: string): Subject => ({
  role: 'product',
  substance: the(name),
  literature: {},
});

describe('specific rotation and enantiomeric excess', () => {
  it.each(published.specificRotation)('$source', (row) => {
    const ours = specificRotation(row.observed_deg, row.length_dm, row.c_g_mL);
    expect(Math.abs(ours - row.printed)).toBeLessThanOrEqual(row.digit / 2 + 1e-9);
  });
  it.each(published.excess)('$source', (row) => {
    const excess = enantiomericExcess(row.specific, row.pure);
    // Printed to the whole percent, and the shares from that.
    expect(Math.abs(excess - row.excess)).toBeLessThanOrEqual(0.5);
    const [major, minor] = enantiomerShares(excess);
    expect(Math.abs(major - row.major)).toBeLessThanOrEqual(0.25);
    expect(Math.abs(minor - row.minor)).toBeLessThanOrEqual(0.25);
  });
});

describe('boiling points and pressure', () => {
  it.each(published.boilingSlopes)('$name: slope of the CRC Handbook', (row) => {
    const association = associationOf(the(row.name));
    const phi = phiOf(association);
    const ours = boilingAt(row.boiling_C, 101.325, 101.825, phi) - row.boiling_C;
    // 10 % covers what Trouton's rule leaves open; the largest here is acetic acid's 13 %.
    expect(Math.abs(ours / 0.5 / row.slope_C_kPa - 1)).toBeLessThan(
      row.name === 'acetic acid' ? 0.15 : 0.1,
    );
  });
  it.each(published.boilingFactors)('up to $to_C °C: the factor of the pharmacopoeia', (row) => {
    const ours = boilingAt(row.at_C, 98, 101.3, phiOf('plain')) - row.at_C;
    // Within 2 u of φ; the pharmacopoeia has one factor for every liquid.
    expect(Math.abs(ours / (row.k * 3.3) - 1)).toBeLessThan(0.1);
  });
  it.each(published.waterVapour)('water at $T_C °C boils at 100 °C under 101.325 kPa', (row) => {
    const ours = boilingAt(row.T_C, row.p_kPa, 101.325, phiOf('hydrogenBonded'));
    expect(Math.abs(ours - 100)).toBeLessThan(0.6);
  });
  it.each(published.reducedPressure)('$name from $p_mmHg mmHg, within 2 u', (row) => {
    const ours = boilingAtPressure(
      exact(row.T_C),
      exact(toKPa(row.p_mmHg, 'mmHg')),
      101.325,
      associationOf(the(row.name)),
    );
    expect(Math.abs(ours.value - row.normal_C)).toBeLessThan(2 * standardUncertainty(ours));
    expect(standardUncertainty(ours)).toBeLessThan(7);
  });
  it('Hoyt, J. Chem. Educ., Simple boiling-point correction: T/8000 per mmHg, T/9870 with O–H', () => {
    // 9870 = 760 × 25.8/1.987, from the 25.8 cal/(mol K) that the paper gives for water and alcohols.
    const perMm = (phi: number) =>
      (boilingAt(76.85, toKPa(759, 'mmHg'), toKPa(760, 'mmHg'), phi) - 76.85) / 350;
    expect(Math.abs(perMm(phiOf('plain')) * 8000 - 1)).toBeLessThan(0.05);
    expect(Math.abs(perMm(phiOf('hydrogenBonded')) * 9870 - 1)).toBeLessThan(0.03);
  });
  it('Levy and Proaño, J. Chem. Educ.: at 547 mmHg in Quito perhaps 10 °C lower', () => {
    const lower = 100 - boilingAt(100, toKPa(760, 'mmHg'), toKPa(547, 'mmHg'), phiOf('plain'));
    expect(lower).toBeGreaterThan(9);
    expect(lower).toBeLessThan(12);
  });
});

describe('refractive index', () => {
  it.each(published.indexAt20)('$source', (row) => {
    expect(indexAt(row.index, row.T_C, 20)).toBeCloseTo(row.printed, 4);
  });
  it.each(published.indexPairs)('$name: 25 °C to 20 °C within 2 u', (row) => {
    const ours = indexWithUncertainty(exact(row.at25_C), 25, 20, undefined);
    expect(Math.abs(ours.value - row.at20_C)).toBeLessThan(2 * standardUncertainty(ours));
  });
  it.each(published.indexMixture)('$source', (row) => {
    expect(shareByIndex(row.mixture, row.first, row.second)).toBeCloseTo(row.printed, 3);
  });
  it('water: 1.3330 at 20 °C, as in a physicists’ table (Chronological Scientific Tables, 2000)', () => {
    expect(waterIndex(20)).toBeCloseTo(1.333, 4);
  });
});

describe('density', () => {
  it.each(published.pycnometers)('$source', (row) => {
    const water_g = row.withWater_g - row.empty_g;
    const sample_g = row.withSample_g - row.empty_g;
    // The last printed digit: the second record rounds its volumes unevenly.
    expect(Math.abs(water_g / row.water_g_mL - row.volume_mL)).toBeLessThan(0.001);
    expect(pycnometerDensity(sample_g, water_g, row.water_g_mL, 0)).toBeCloseTo(
      row.density_g_mL,
      4,
    );
  });
  it('the pycnometer of Chang agrees with ethanol of the CRC Handbook', () => {
    const [row] = published.pycnometers;
    const { empty_g, withWater_g, withSample_g, T_C } = row!;
    const judged = judgeDensity(
      { technique: 'density', T_C, by: { kind: 'pycnometer', empty_g, withWater_g, withSample_g } },
      { product: product('ethanol'), others: [] },
    );
    expect(judged.statements[0]!.agreement).toBe('agrees');
  });
  it.each(published.waterDensity)('water at $T_C °C: $source', (row) => {
    const ours = 1000 * waterDensity(row.T_C);
    expect(Math.abs(ours - row.printed_kg_m3)).toBeLessThanOrEqual(Math.max(row.digit, 0.004));
  });
  // The open text of Jones and Harris has 16.897850 below the line, with which water would be 0.09
  // kg/m³ off; an open page on the same formula has 16.87985, which fits every table.
  it('Kell’s formula, as printed by Jones and Harris, J. Res. NIST 1992, 97, 335', () => {
    const kell = (t: number): number =>
      (999.83952 +
        16.945176 * t -
        7.9870401e-3 * t ** 2 -
        46.170461e-6 * t ** 3 +
        105.56302e-9 * t ** 4 -
        280.54253e-12 * t ** 5) /
      (1 + 16.87985e-3 * t);
    // Kell's temperatures are of 1968: 0.01 °C apart at 40 °C, 0.004 kg/m³.
    for (let t = 5; t <= 40; t += 2.5)
      expect(Math.abs(1000 * waterDensity(t) - kell(t))).toBeLessThan(0.006);
  });
  it('European Pharmacopoeia 2.2.5: relative density 20/20 is 1.00180 times the density', () => {
    expect(1 / waterDensity(20)).toBeCloseTo(1.0018, 5);
  });
});

describe('melting', () => {
  it.each(published.cryoscopic)('$name: $K K kg/mol ($source)', (row) => {
    const substance = the(row.name);
    const ours = cryoscopicConstant(
      row.T_C + 273.15,
      substance.molarMass_g_mol!,
      fusionOf(substance)!.enthalpy_J_mol,
    );
    // Two editions of the handbook: its enthalpies of fusion were revised by up to 6 %.
    expect(Math.abs(ours / row.K - 1)).toBeLessThan(0.065);
  });
  it.each(published.depressions)('$source', (row) => {
    const substance = the(row.name);
    const inMelt = (row.molality * substance.molarMass_g_mol!) / 1000;
    const ours = impurityShare(
      row.T_C + 273.15,
      row.pure_C + 273.15,
      fusionOf(substance)!.enthalpy_J_mol,
    );
    // The examples use a constant per molality, which is the law of a very dilute solution.
    expect(Math.abs(ours / (inMelt / (1 + inMelt)) - 1)).toBeLessThan(0.1);
  });
  it.each(published.eutectics)('$name with $with: the eutectic share', (row) => {
    const { enthalpy_J_mol } = fusionOf(the(row.name))!;
    const ours = impurityShare(row.T_C + 273.15, row.pure_C + 273.15, enthalpy_J_mol);
    expect(Math.abs(ours / row.share - 1)).toBeLessThan(0.15);
  });
  it.each(published.mixedRanges)('$source: two different substances', (row) => {
    const judged = judgeMelting(
      {
        technique: 'meltingRange',
        sample: 'mixed',
        low_C: row.low_C,
        high_C: row.high_C,
        mixedWith: { substance: '2-naphthol', range: { low_C: 120, high_C: 122 } },
        alone: { low_C: 122, high_C: 124 },
      },
      { product: product('benzoic acid'), others: [] },
    );
    expect(judged.statements[0]!.agreement).toBe('disagrees');
  });
  it.each(published.stem)('emergent stem: $source', ({ perC }) => {
    const ours = stemCorrection(200, { emergent_C: 100, stem_C: 50 });
    expect(Math.abs(ours - perC * 100 * 150)).toBeLessThan(0.11);
  });
  it('the gas constant is that of the SI (BIPM, SI Brochure, 9th ed.): N_A·k', () => {
    expect(GAS_CONSTANT).toBeCloseTo(6.02214076e23 * 1.380649e-23, 8);
  });
});
