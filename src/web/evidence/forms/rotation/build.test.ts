// @vitest-environment jsdom
import { cleanup } from '@testing-library/react';
import { afterEach, expect, it } from 'vitest';
import { openForm, worth } from '../testing.tsx';
import { rotationForm } from './form.tsx';

afterEach(cleanup);

it('a solution, with its sign as one writes it', () => {
  const form = openForm(rotationForm);
  form.type('Concentration', '26.0');
  form.type('Length of the tube', '1');
  form.type('Sample', '+17.3');
  form.type('Temperature', '20');
  form.keep();
  expect(form.kept).toEqual([
    {
      technique: 'rotation',
      sample: { kind: 'solution', concentration: 26, unit: 'g/100 mL' },
      length_dm: 1,
      observed_deg: 17.3,
      T_C: 20,
    },
  ]);
});

it('all that can be said of a solution', () => {
  const form = openForm(rotationForm);
  form.type('Concentration', '0.05');
  form.type('Unit', 'g/mL');
  form.type('Solvent', '(other)');
  form.type('Name of the solvent', 'ethyl acetate');
  form.type('Length of the tube', '2');
  form.type('Blank', '−0.02');
  form.type('Sample', '−4.1');
  form.type('Temperature', '25');
  form.type('Wavelength', '546');
  form.type('A reading is good to ±', '0.01');
  form.type('Solvent of the literature', 'chloroform');
  form.type('Concentration of the literature', '1');
  form.type('Temperature of the literature', '20');
  form.keep();
  expect(form.kept).toEqual([
    {
      technique: 'rotation',
      sample: { kind: 'solution', concentration: 0.05, unit: 'g/mL', solvent: 'ethyl acetate' },
      length_dm: 2,
      blank_deg: -0.02,
      observed_deg: -4.1,
      T_C: 25,
      wavelength_nm: 546,
      tolerance_deg: 0.01,
      literature: { solvent: 'chloroform', concentration_g_100mL: 1, T_C: 20 },
    },
  ]);
});

it('a neat liquid has a density in place of a concentration', () => {
  const form = openForm(rotationForm);
  form.type('Concentration', 'much');
  form.type('In the tube', 'neat');
  form.type('Density of the liquid', '0.8422');
  form.type('Length of the tube', '0.5');
  form.type('Sample', '50');
  form.type('Temperature', '20');
  form.keep();
  expect(form.kept).toMatchObject([{ sample: { kind: 'neat', density_g_mL: 0.8422 } }]);
});

const MISSING = 'This is needed.';
const FULL = { concentration: '1', length_dm: '1', observed_deg: '0', T_C: '20' };
it.each([
  [{}, { concentration: MISSING, length_dm: MISSING, observed_deg: MISSING, T_C: MISSING }],
  [{ ...FULL, sample: 'neat' }, { density_g_mL: MISSING }],
  [{ ...FULL, solvent: '(other)' }, { solventOther: MISSING }],
  [{ ...FULL, literatureSolvent: '(other)' }, { literatureSolventOther: MISSING }],
  [
    { ...FULL, concentration: '0', length_dm: '-1' },
    {
      concentration: 'More than 0 is expected here.',
      length_dm: 'More than 0 is expected here.',
    },
  ],
  [
    { ...FULL, wavelength_nm: 'D', blank_deg: 'none' },
    { wavelength_nm: 'A number is expected here.', blank_deg: 'A number is expected here.' },
  ],
])('%j says what is wrong', (draft, problems) => {
  expect(worth(rotationForm, draft)).toEqual(problems);
});
