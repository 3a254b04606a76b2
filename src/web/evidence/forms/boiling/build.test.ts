// @vitest-environment jsdom
import { cleanup } from '@testing-library/react';
import { afterEach, expect, it } from 'vitest';
import { openForm, worth } from '../testing.tsx';
import { boilingForm } from './form.tsx';

afterEach(cleanup);

it('a distilling range with its pressure', () => {
  const form = openForm(boilingForm);
  form.type('First drops at', '96.0');
  form.type('Last drops at', '98.5');
  form.type('Pressure', '742');
  form.type('Unit', 'mmHg');
  form.type('Thermometer', 'digital');
  form.type('The liquid is held together by hydrogen bonds', 'yes');
  form.keep();
  expect(form.kept).toEqual([
    {
      technique: 'boilingRange',
      method: 'distillation',
      low_C: 96,
      high_C: 98.5,
      pressure: { value: 742, unit: 'mmHg' },
      thermometer: { kind: 'digital' },
      hydrogenBonded: true,
    },
  ]);
});

it('a boiling point of a few drops is one number', () => {
  const form = openForm(boilingForm);
  form.type('How it was boiled', 'microscale');
  form.type('Boiling point', '117');
  form.type('Pressure', '1013');
  form.keep();
  expect(form.kept).toEqual([
    {
      technique: 'boilingRange',
      method: 'microscale',
      low_C: 117,
      high_C: 117,
      pressure: { value: 1013, unit: 'mbar' },
    },
  ]);
});

it('both ways keep what was typed while one looks at the other', () => {
  const form = openForm(boilingForm);
  form.type('First drops at', '96');
  form.type('How it was boiled', 'microscale');
  form.type('How it was boiled', 'distillation');
  expect(form.field('First drops at').value).toBe('96');
});

it('a thread is asked for unless the thermometer has none', () => {
  const draft = { method: 'microscale', point_C: '80', thermometerKind: 'digital', stem_C: 'x' };
  expect(worth(boilingForm, draft)).toMatchObject({ thermometer: { kind: 'digital' } });
  expect(worth(boilingForm, { ...draft, thermometerKind: 'mercury' })).toEqual({
    emergent_C: 'This is needed.',
    stem_C: 'A number is expected here.',
  });
});

it.each([
  [{}, { low_C: 'This is needed.', high_C: 'This is needed.' }],
  [{ low_C: '98', high_C: '96' }, { high_C: 'This is below where it began.' }],
  [{ method: 'microscale' }, { point_C: 'This is needed.' }],
  [{ method: 'microscale', point_C: '80', pressure: '-5' }, { pressure: 'Between 0 and 1000000.' }],
  [
    { low_C: 'x', high_C: '2', pressure: 'low' },
    { low_C: 'A number is expected here.', pressure: 'A number is expected here.' },
  ],
])('%j says what is wrong', (draft, problems) => {
  expect(worth(boilingForm, draft)).toEqual(problems);
});
