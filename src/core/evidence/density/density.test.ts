import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { tableWith } from '../../chemistry/substance.ts';
import type { Agreement, Judged } from '../statement.ts';
import type { Literature, Subject, Subjects } from '../subject.ts';
import { judgeDensity } from './judge.ts';
import type { DensityEntered } from './schema.ts';
import { densityEnteredSchema } from './schema.ts';
import { densityAt, pycnometerDensity, waterDensity } from './water.ts';

const table = tableWith();
const subject = (name: string, literature: Literature = {}): Subject => ({
  role: 'product',
  substance: table.byName.get(name)!,
  literature,
});
const ethanol: Subjects = { product: subject('ethanol'), others: [] };
const shown = (density_g_mL: number, T_C = 20): DensityEntered => ({
  technique: 'density',
  T_C,
  by: { kind: 'shown', density_g_mL },
});
const weighed = (withSample_g: number, more: object = {}): DensityEntered => ({
  technique: 'density',
  T_C: 20,
  by: { kind: 'pycnometer', empty_g: 32.0764, withWater_g: 43.1195, withSample_g, ...more },
});
const first = (judged: Judged) => judged.statements[0]!;

const SCENARIOS: readonly (readonly [string, DensityEntered, Agreement])[] = [
  ['as it should be', shown(0.7893), 'agrees'],
  ['warm, brought to 20 °C', shown(0.785, 25), 'agrees'],
  ['by three weighings', weighed(40.8051), 'agrees'],
  ['with water in it', shown(0.81), 'disagrees'],
  ['two weighings that changed places', weighed(43.8), 'disagrees'],
];

describe('the product', () => {
  it.each(SCENARIOS)('%s', (_, entered, agreement) => {
    const judged = judgeDensity(entered, ethanol);
    const one = first(judged);
    expect(one.agreement).toBe(agreement);
    expect(one.weight).toBe('weak');
    expect(one.expected).toContain('CRC Handbook');
    expect(`${one.says} ${one.limits}`).not.toMatch(/[Cc]onfirm|!|NaN|undefined/);
  });
  it('a chlorinated solvent falls faster, and still agrees: dichloromethane 1.3256 at 20, 1.316 at 25 °C', () => {
    const dichloromethane = subject('dichloromethane', { density_g_mL: 1.3256, densityT_C: 20 });
    const judged = judgeDensity(shown(1.3166, 25), { product: dichloromethane, others: [] });
    expect(first(judged).agreement).toBe('agrees');
  });
  it('names other liquids of that density', () => {
    const acetone: Subject = { ...subject('acetone'), role: 'solvent' };
    const judged = judgeDensity(shown(0.7893), { ...ethanol, others: [acetone] });
    expect(first(judged).limits).toContain('acetone, a solvent');
  });
  it('buoyancy lowers nothing that is as dense as water, and lifts a light liquid', () => {
    const { derivation } = first(judgeDensity(weighed(40.8051), ethanol));
    const without = first(judgeDensity(weighed(40.8051, { buoyancy: false }), ethanol));
    expect(derivation!.at(2)!.value).toMatch(/^0\.7892\d/);
    expect(without.derivation!.at(2)!.value).toMatch(/^0\.7890\d/);
  });
  it('without a literature value says what would help', () => {
    expect(first(judgeDensity(shown(0.8), { others: [] }))).toMatchObject({
      agreement: 'cannotTell',
      expected: '',
    });
  });
});

describe('what cannot be', () => {
  const wrong: readonly (readonly [string, DensityEntered])[] = [
    ['a negative density', shown(-0.79)],
    ['kg/m³ entered as g/mL', shown(789)],
    ['a temperature in kelvin', shown(0.79, 293)],
    ['the sample no heavier than the glass', weighed(32.0764)],
    ['water too warm', weighed(40.8, { waterT_C: 80 })],
    ['no glass', weighed(40.8, { empty_g: -1 })],
    ['hardly any sample', weighed(32.2)],
  ];
  it.each(wrong)('%s', (_, entered) => {
    const judged = judgeDensity(entered, ethanol);
    expect(judged.statements).toEqual([]);
    expect(judged.diagnostics.map(({ code }) => code)).toEqual(['density-implausible']);
  });
  it('a very small pycnometer', () => {
    const entered = weighed(32.3, { withWater_g: 32.36 });
    expect(judgeDensity(entered, ethanol).diagnostics.map(({ code }) => code)).toEqual([
      'pycnometer-small',
    ]);
  });
  it('the schema is strict', () => {
    expect(densityEnteredSchema.safeParse(weighed(40.8)).success).toBe(true);
    expect(densityEnteredSchema.safeParse({ ...shown(0.8), by: { kind: 'guess' } }).success).toBe(
      false,
    );
    expect(densityEnteredSchema.safeParse({ ...shown(0.8), colour: 'none' }).success).toBe(false);
  });
});

describe('properties', () => {
  const t = fc.double({ min: 5, max: 40, noNaN: true });
  it('water falls with temperature above 4 °C', () => {
    fc.assert(
      fc.property(t, t, (a, b) => {
        expect(waterDensity(Math.max(a, b))).toBeLessThanOrEqual(waterDensity(Math.min(a, b)));
      }),
    );
  });
  it('a pycnometer full of water gives the density of water, with air or without', () => {
    fc.assert(
      fc.property(t, fc.double({ min: 1, max: 100, noNaN: true }), (T_C, mass_g) => {
        for (const air of [0, 0.0012])
          expect(pycnometerDensity(mass_g, mass_g, waterDensity(T_C), air)).toBeCloseTo(
            waterDensity(T_C),
            12,
          );
      }),
    );
  });
  it('a heavier filling is denser; there and back is where it was', () => {
    fc.assert(
      fc.property(t, t, fc.double({ min: 0.6, max: 2, noNaN: true }), (a, b, density) => {
        expect(densityAt(densityAt(density, a, b, 0.001), b, a, 0.001)).toBeCloseTo(density, 12);
        expect(pycnometerDensity(density * 10, 10, 0.998, 0.0012)).toBeLessThan(
          pycnometerDensity(density * 10 + 0.1, 10, 0.998, 0.0012),
        );
      }),
    );
  });
  it('judging the literature value agrees at any temperature', () => {
    fc.assert(
      fc.property(t, fc.double({ min: 0.6, max: 2, noNaN: true }), (T_C, density_g_mL) => {
        const product = subject('ethanol', { density_g_mL, densityT_C: T_C });
        const judged = judgeDensity(shown(density_g_mL, T_C), { product, others: [] });
        expect(first(judged).agreement).toBe('agrees');
      }),
    );
  });
});
