import { describe, expect, test } from 'vitest';
import { makeSubstance } from '../../chemistry/substance.ts';
import { literatureOf } from './literature.ts';

function substance() {
  const made = makeSubstance({
    name: 'borneol',
    smiles: 'CC1(C)C2CCC1(C)C(O)C2',
    meltingPoint_C: 207,
  });
  if (!made.ok) throw new Error(made.message);
  return made.substance;
}

describe('what a measurement is compared with', () => {
  test('the table', () => {
    expect(literatureOf(substance()).meltingRange_C).toEqual([207, 207]);
  });

  test.each([
    ['Melting range', '204–206 °C', { meltingRange_C: [204, 206] }],
    ['M.p.', '206 °C', { meltingRange_C: [206, 206] }],
    ['Boiling point', '84–86 °C at 20 mmHg', { boilingPoint_C: 85 }],
    ['Refractive index', '1,4613 at 25 °C', { refractiveIndex: 1.4613, refractiveIndexT_C: 25 }],
    ['Refractive index', '1.4613', { refractiveIndexT_C: 20 }],
    ['Literature bp', '171–173 °C (from memory)', { boilingPoint_C: 172 }],
    ['Lit. m.p.', '206 °C', { meltingRange_C: [206, 206] }],
    ['Density', '0.914 g/mL', { density_g_mL: 0.914, densityT_C: 20 }],
    ['Specific rotation', '−37.7 (ethanol)', { specificRotation: -37.7 }],
    ['Melting range', '120 °C to 124 °C', { meltingRange_C: [120, 124] }],
    ['Melting range', '120.5 °C – 121.5 °C', { meltingRange_C: [120.5, 121.5] }],
    ['Melting range', '−5 to −3 °C', { meltingRange_C: [-5, -3] }],
    ['Refractive index', 'n20D 1.4613', { refractiveIndex: 1.4613, refractiveIndexT_C: 20 }],
    ['Refractive index', 'nD 1.4613 (25 °C)', { refractiveIndex: 1.4613, refractiveIndexT_C: 25 }],
    ['Specific rotation', '[α]D20 −37.7 (c 5, ethanol)', { specificRotation: -37.7 }],
    ['Specific rotation', '[α]20D = +66.5', { specificRotation: 66.5 }],
    ['Specific rotation', '[α]D +66.5', { specificRotation: 66.5 }],
    ['Density', 'd20 0.914', { density_g_mL: 0.914 }],
    ['Density', 'd20/4 0.914', { density_g_mL: 0.914 }],
    ['Density', '914 kg/m³', { density_g_mL: 0.914 }],
    ['b.p.', '20 mmHg: 85 °C', { boilingPoint_C: 85 }],
    ['b.p.', '85–87 °C/20 mmHg', { boilingPoint_C: 86 }],
    ['Melting range', 'sharp', { meltingRange_C: [207, 207] }],
  ])('%s: %s', (key, value, expected) => {
    expect(literatureOf(substance(), { [key]: value })).toMatchObject(expected);
  });

  test('not the density of crystals', () => {
    const made = makeSubstance({ name: 'salt', smiles: 'CC', density_g_mL: 1.3, state: 'solid' });
    if (!made.ok) throw new Error(made.message);
    expect(literatureOf(made.substance).density_g_mL).toBeUndefined();
  });

  test('a pressure in mmHg', () => {
    const { boilingPressure_kPa } = literatureOf(substance(), { 'b.p.': '85 °C at 20 mm Hg' });
    expect(boilingPressure_kPa).toBeCloseTo(2.66645, 4);
  });
});
