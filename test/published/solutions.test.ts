import { describe, expect, it } from 'vitest';
import densityTable from '../../src/core/facts/solution_density.json' with { type: 'json' };
import { rowsOf } from '../../src/core/facts/table.ts';
import { readMaterial } from '../../src/core/chemistry/material.ts';
import type { Material } from '../../src/core/chemistry/material.ts';
import { compose, molarityOf } from '../../src/core/chemistry/solution.ts';
import { tableWith } from '../../src/core/chemistry/substance.ts';
import type { Substance } from '../../src/core/chemistry/substance.ts';

const table = tableWith([]);
const the = (name: string): Substance => table.byName.get(name.toLowerCase())!;

function read(text: string): Material {
  const reading = readMaterial(text, table);
  if (!reading.ok) throw new Error(reading.message);
  return reading.material;
}

function massFraction(material: Material): number {
  return material.composition.find((share) => share.substance === material.substance)!.massFraction;
}

function molarity(material: Material): number {
  const { density_g_mL, substance } = material;
  return molarityOf(massFraction(material), density_g_mL!, substance.molarMass_g_mol!);
}

/**
 * CRC Handbook of Chemistry and Physics, 102nd ed. (2021), Concentrative Properties of Aqueous
 * Solutions: mass percent, density and molarity as the table prints them.
 */
describe('CRC Handbook, Concentrative Properties of Aqueous Solutions', () => {
  const rows = rowsOf(densityTable).filter((row) => row['molarity_mol_L'] !== '');
  const solutes = [...new Set(rows.map((row) => row['solute']!))];
  it.each(solutes)('%s: molarity of every row, and the way back', (name) => {
    const solute = the(name);
    for (const row of rows.filter((r) => r['solute'] === name)) {
      const percent = Number(row['mass_percent']);
      const printed = Number(row['molarity_mol_L']);
      const made = compose(solute, { kind: 'massPercent', value: percent }, the('water'));
      if (!made.ok) throw new Error(made.message);
      expect(made.density_g_mL).toBeCloseTo(Number(row['density_g_mL']), 4);
      const ours = molarityOf(made.massFraction, made.density_g_mL!, solute.molarMass_g_mol!);
      // The last printed digit, and 0.03 % for the atomic weights of the table.
      expect(Math.abs(ours - printed), `${name} ${percent} %`).toBeLessThan(
        0.00051 + 3e-4 * printed,
      );
      const back = compose(solute, { kind: 'molarity', value: printed }, the('water'));
      if (!back.ok) throw new Error(back.message);
      const slack = 0.0011 * (percent / printed) + 0.0006 * percent;
      expect(Math.abs(100 * back.massFraction - percent), `${name} ${printed} M`).toBeLessThan(
        slack,
      );
    }
  });
  it('covers two thirds of the tabulated solutions', () => {
    expect(rows.length).toBeGreaterThan(1000);
    expect(solutes.length).toBeGreaterThan(40);
  });
});

/** OpenStax, Chemistry 2e, Appendix F, Table F1: composition of commercial acids and bases. */
describe('OpenStax Chemistry 2e, Table F1', () => {
  const rows: readonly (readonly [string, number, number, number])[] = [
    ['glacial acetic acid', 99.5, 1.05, 17.4],
    ['28 % aqueous ammonia', 28, 0.9, 14.8],
    ['36 % hydrochloric acid', 36, 1.18, 11.6],
    ['71 % nitric acid', 71, 1.42, 16.0],
    ['85 % phosphoric acid', 85, 1.7, 14.7],
    ['50 % sodium hydroxide', 50, 1.53, 19.1],
    ['96 % sulfuric acid', 96, 1.84, 18.0],
    ['concentrated sulfuric acid', 96, 1.84, 18.0],
    ['concentrated aqueous ammonia', 28, 0.9, 14.8],
    ['concentrated phosphoric acid', 85, 1.7, 14.7],
  ];
  it.each(rows)('%s', (name, percent, density, molar) => {
    const material = read(name);
    expect(Math.abs(100 * massFraction(material) - percent)).toBeLessThanOrEqual(0.5);
    // The table prints two decimals; 1.7 for phosphoric acid stands against 1.689.
    expect(Math.abs(material.density_g_mL! - density)).toBeLessThanOrEqual(0.0111);
    expect(Math.abs(molarity(material) / molar - 1)).toBeLessThan(0.009);
  });
});

describe('ethanol and water', () => {
  /** Perry's Chemical Engineers' Handbook, 7th ed., densities of ethanol–water mixtures at 20 °C. */
  const perry: readonly (readonly [number, number])[] = [
    [1, 0.99636],
    [5, 0.98938],
    [10, 0.98187],
    [12, 0.9791],
  ];
  /** Bulletin of the Bureau of Standards 1913, 9, 424: density in g/mL at 20 °C. */
  const bureau: readonly (readonly [number, number])[] = [
    [45, 0.92472],
    [50, 0.91384],
    [60, 0.89113],
    [70, 0.86766],
    [75, 0.85564],
    [80, 0.84344],
    [85, 0.83095],
  ];
  it.each([...perry, ...bureau])('%d %% by mass has a density of %d g/mL', (percent, density) => {
    const ours = read(`${percent} % w/w ethanol`).density_g_mL!;
    expect(Math.abs(ours - density)).toBeLessThan(0.0003);
  });

  /**
   * United States Pharmacopeia 29, Alcoholometric Table: percent by volume at 15.56 °C and by
   * mass. At 20 °C, as here, the volumes differ by a tenth of a percent at most.
   */
  const pharmacopeia: readonly (readonly [number, number])[] = [
    [5, 4.0],
    [10, 8.05],
    [15, 12.14],
    [20, 16.27],
    [25, 20.44],
    [30, 24.67],
  ];
  it.each(pharmacopeia)('%d %% by volume is %d %% by mass', (volume, mass) => {
    const ours = 100 * massFraction(read(`${volume} % ethanol`));
    expect(Math.abs(ours - mass)).toBeLessThan(0.08);
  });

  it('95 % by volume is 92.4 % by mass (figure from memory: Merck Index, USP)', () => {
    const material = read('95 % ethanol');
    expect(100 * massFraction(material)).toBeCloseTo(92.4, 1);
    expect(material.density_g_mL).toBeGreaterThan(0.811);
    expect(material.density_g_mL).toBeLessThan(0.816);
  });
});

/**
 * Acids named by their specific gravity, from the procedures of Organic Syntheses 1922, 2, 61 and
 * 71. The strengths beside them are those of the CRC rows between which the density lies.
 */
describe('acids known by their specific gravity', () => {
  it.each([
    ['sulfuric acid sp gr 1.32', 41, 42.5],
    ['hydrochloric acid sp gr 1.138', 27, 28.5],
  ] as const)('%s', (name, low, high) => {
    const percent = 100 * massFraction(read(name));
    expect(percent).toBeGreaterThan(low);
    expect(percent).toBeLessThan(high);
  });
});

/**
 * CRC Handbook, Aqueous Solubility of Inorganic Compounds: mass percent at 20 °C; densities of
 * the saturated solutions from the table of solutions.
 */
describe('saturated solutions at 20 °C', () => {
  it.each([
    ['saturated sodium chloride solution', 26.41, 1.2],
    ['saturated sodium hydrogencarbonate solution', 8.73, 1.06],
    ['saturated ammonium chloride', 27.27, 1.076],
    ['saturated aqueous sodium carbonate', 17.9, 1.19],
    ['saturated sodium thiosulfate', 40.6, 1.39],
  ] as const)('%s', (name, percent, density) => {
    const material = read(name);
    expect(100 * massFraction(material)).toBeCloseTo(percent, 2);
    expect(Math.abs(material.density_g_mL! - density)).toBeLessThan(0.005);
  });
});
