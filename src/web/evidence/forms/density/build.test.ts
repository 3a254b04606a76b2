// @vitest-environment jsdom
import { cleanup } from '@testing-library/react';
import { afterEach, expect, it } from 'vitest';
import { openForm, worth } from '../testing.tsx';
import { densityForm } from './form.tsx';

afterEach(cleanup);

it('three weighings', () => {
  const form = openForm(densityForm);
  form.type('Empty and dry', '20.1234');
  form.type('Full of water', '30.0987');
  form.type('Full of the sample', '28.0100');
  form.type('Temperature of the sample', '20');
  form.keep();
  expect(form.kept).toEqual([
    {
      technique: 'density',
      by: { kind: 'pycnometer', empty_g: 20.1234, withWater_g: 30.0987, withSample_g: 28.01 },
      T_C: 20,
    },
  ]);
});

it('three weighings with all that may be known beside them', () => {
  const form = openForm(densityForm);
  form.type('Empty and dry', '20');
  form.type('Full of water', '30');
  form.type('Full of the sample', '28');
  form.type('Temperature of the sample', '21');
  form.type('Temperature of the water', '22');
  form.type('Smallest step of the balance', '0.0001');
  form.tick('Leave the buoyancy of air out of account');
  form.type('Fall of the density', '0.0009');
  form.keep();
  expect(form.kept).toEqual([
    {
      technique: 'density',
      by: {
        kind: 'pycnometer',
        empty_g: 20,
        withWater_g: 30,
        withSample_g: 28,
        waterT_C: 22,
        readability_g: 0.0001,
        buoyancy: false,
      },
      T_C: 21,
      fall_g_mL_perC: 0.0009,
    },
  ]);
});

it('a density that was shown', () => {
  const form = openForm(densityForm, { others: [] }, ',');
  form.type('Measured by', 'shown');
  form.type('Density shown', '0,8036');
  form.type('Temperature of the sample', '25');
  form.type('Instrument good to ±', '0,001');
  form.keep();
  expect(form.kept).toEqual([
    {
      technique: 'density',
      by: { kind: 'shown', density_g_mL: 0.8036, tolerance_g_mL: 0.001 },
      T_C: 25,
    },
  ]);
});

const MISSING = 'This is needed.';
it.each([
  [{}, { empty_g: MISSING, withWater_g: MISSING, withSample_g: MISSING, T_C: MISSING }],
  [{ by: 'shown' }, { density_g_mL: MISSING, T_C: MISSING }],
  [
    { empty_g: '30', withWater_g: '20', withSample_g: '30', T_C: '20' },
    {
      withWater_g: 'Full it weighs more than empty.',
      withSample_g: 'Full it weighs more than empty.',
    },
  ],
  [
    { empty_g: '-1', withWater_g: '20', withSample_g: '30', T_C: '20' },
    { empty_g: 'More than 0 is expected here.' },
  ],
  [
    { by: 'shown', density_g_mL: '0.8', tolerance_g_mL: '-1', T_C: '20', fall_g_mL_perC: '1' },
    { tolerance_g_mL: 'Between 0 and 100.', fall_g_mL_perC: 'Between 0 and 0.1.' },
  ],
])('%j says what is wrong', (draft, problems) => {
  expect(worth(densityForm, draft)).toEqual(problems);
});
