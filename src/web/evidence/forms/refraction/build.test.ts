// @vitest-environment jsdom
import { cleanup } from '@testing-library/react';
import { afterEach, expect, it } from 'vitest';
import { openForm, worth } from '../testing.tsx';
import { refractionForm } from './form.tsx';

afterEach(cleanup);

it('an index and its temperature are all that is needed', () => {
  const form = openForm(refractionForm, { others: [] }, ',');
  form.type('Refractive index, sodium D line', '1,4652');
  form.type('Temperature of the prism', '22,5');
  form.keep();
  expect(form.kept).toEqual([{ technique: 'refractiveIndex', index: 1.4652, T_C: 22.5 }]);
});

it('the check with water, the instrument, and the liquid', () => {
  const form = openForm(refractionForm);
  form.type('Refractive index, sodium D line', '1.4652');
  form.type('Temperature of the prism', '22.5');
  form.tick('The instrument corrected it to 20 °C by itself');
  form.type('Index of pure water', '1.3331');
  form.type('Temperature, water', '21');
  form.type('Instrument good to ±', '0.0001');
  form.type('Fall of the index', '.00045');
  form.keep();
  expect(form.kept).toEqual([
    {
      technique: 'refractiveIndex',
      index: 1.4652,
      T_C: 22.5,
      compensated: true,
      water: { index: 1.3331, T_C: 21 },
      tolerance: 0.0001,
      fall_perC: 0.00045,
    },
  ]);
});

it('water has the temperature of the sample unless it is told', () => {
  const draft = { index: '1.4652', T_C: '22.5', waterIndex: '1.3330' };
  expect(worth(refractionForm, draft)).toMatchObject({ water: { index: 1.333, T_C: 22.5 } });
});

it.each([
  [{}, { index: 'This is needed.', T_C: 'This is needed.' }],
  [{ index: '0', T_C: '20' }, { index: 'More than 0 is expected here.' }],
  [{ index: '1.4', T_C: '20', waterT_C: '20' }, { waterIndex: 'This is needed.' }],
  [
    { index: '1.4', T_C: '20', waterIndex: '1.33', waterT_C: 'cold' },
    { waterT_C: 'A number is expected here.' },
  ],
  [
    { index: '1.4', T_C: '20', tolerance: '2', fall_perC: '0.45' },
    { tolerance: 'Between 0 and 1.', fall_perC: 'Between 0 and 0.01.' },
  ],
])('%j says what is wrong', (draft, problems) => {
  expect(worth(refractionForm, draft)).toEqual(problems);
});
