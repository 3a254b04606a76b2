// @vitest-environment jsdom
import { cleanup, waitFor } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { judgeMelting } from '../../../../core/evidence/melting/judge.ts';
import { openForm, subjectsFor, worth } from '../testing.tsx';
import { meltingForm } from './form.tsx';

afterEach(cleanup);

const SUBJECTS = subjectsFor('benzoic acid', { benzaldehyde: 'startingMaterial' });

describe('a melting range typed by hand', () => {
  it('needs two temperatures, in the decimal sign of the laboratory', () => {
    const form = openForm(meltingForm, SUBJECTS, ',');
    form.type('First liquid at', '121,5');
    form.type('Last crystal gone at', '122,5');
    form.keep();
    const entered = {
      technique: 'meltingRange',
      sample: 'product',
      low_C: 121.5,
      high_C: 122.5,
    } as const;
    expect(form.kept).toEqual([entered]);
    // 122.34 °C: the table of substances, from the CRC Handbook
    expect(judgeMelting(entered, SUBJECTS).statements[0]?.substance).toBe('benzoic acid');
  });

  it('takes all of a mixed range, with its thermometer', () => {
    const form = openForm(meltingForm, SUBJECTS);
    form.type('In the capillary', 'mixed');
    form.type('Mixed with', 'benzaldehyde');
    form.type('First liquid at', '118');
    form.type('Last crystal gone at', '121');
    form.tick('It decomposed');
    form.tick('It sublimed');
    form.type('from', '121', 'The product alone');
    form.type('to', '122', 'The product alone');
    form.type('from', '-56', 'The known sample alone');
    form.type('to', '-55.5', 'The known sample alone');
    form.type('Near the melting point', '1.5');
    form.type('Thermometer', 'mercury');
    form.type('Good to ±', '0.5');
    form.press('Add a standard');
    form.type('Standard', 'urea', 'Standard 1');
    form.type('Read', '133.9', 'Standard 1');
    form.type('Should be', '132.7', 'Standard 1');
    form.type('Thread outside the bath', '80');
    form.type('Temperature beside it', '30');
    form.keep();
    expect(form.kept).toEqual([
      {
        technique: 'meltingRange',
        sample: 'mixed',
        low_C: 118,
        high_C: 121,
        decomposes: true,
        sublimes: true,
        mixedWith: { substance: 'benzaldehyde', range: { low_C: -56, high_C: -55.5 } },
        alone: { low_C: 121, high_C: 122 },
        heatingRate_C_min: 1.5,
        thermometer: {
          kind: 'mercury',
          tolerance_C: 0.5,
          calibration: [{ standard: 'urea', measured_C: 133.9, true_C: 132.7 }],
          stem: { emergent_C: 80, stem_C: 30 },
        },
      },
    ]);
  });
});

describe('what is made of a draft', () => {
  it('a mixed range with everything', () => {
    expect(
      worth(
        meltingForm,
        {
          sample: 'mixed',
          known: '(other)',
          knownOther: ' cinnamic acid ',
          low_C: '118',
          high_C: '121',
          aloneLow_C: '121',
          aloneHigh_C: '122',
          knownLow_C: '132',
          knownHigh_C: '133',
          heatingRate_C_min: '2',
          thermometerKind: 'alcohol',
          tolerance_C: '1',
          emergent_C: '90',
          stem_C: '25',
          calibration: [{ standard: 'urea', measured_C: '134', true_C: '132.7' }],
        },
        SUBJECTS,
      ),
    ).toEqual({
      technique: 'meltingRange',
      sample: 'mixed',
      low_C: 118,
      high_C: 121,
      mixedWith: { substance: 'cinnamic acid', range: { low_C: 132, high_C: 133 } },
      alone: { low_C: 121, high_C: 122 },
      heatingRate_C_min: 2,
      thermometer: {
        kind: 'alcohol',
        tolerance_C: 1,
        stem: { emergent_C: 90, stem_C: 25 },
        calibration: [{ standard: 'urea', measured_C: 134, true_C: 132.7 }],
      },
    });
  });

  it('the known sample is the product until another is chosen', () => {
    const draft = { sample: 'mixed', low_C: '118', high_C: '121' };
    expect(worth(meltingForm, draft, SUBJECTS)).toMatchObject({
      mixedWith: { substance: 'benzoic acid' },
    });
  });

  it('what a chosen sample hides is not read', () => {
    const draft = { sample: 'authentic', low_C: '1', high_C: '2', aloneLow_C: 'warm' };
    expect(worth(meltingForm, draft)).toEqual({
      technique: 'meltingRange',
      sample: 'authentic',
      low_C: 1,
      high_C: 2,
    });
  });

  it.each([
    [{}, { low_C: 'This is needed.', high_C: 'This is needed.' }],
    [{ low_C: '122', high_C: '120' }, { high_C: 'This is below where it began.' }],
    [{ low_C: '-300', high_C: '120' }, { low_C: 'Between −273 and 3000.' }],
    [
      { sample: 'mixed', low_C: '1', high_C: '2', knownLow_C: '3' },
      { knownOther: 'This is needed.', knownHigh_C: 'This is needed.' },
    ],
    [
      { low_C: '1', high_C: '2', stem_C: '20', calibration: [{ true_C: '5' }] },
      { 'calibration.0.measured_C': 'This is needed.', emergent_C: 'This is needed.' },
    ],
    [
      { low_C: '1', high_C: '2', tolerance_C: '-1', heatingRate_C_min: 'slow' },
      { tolerance_C: 'Between 0 and 50.', heatingRate_C_min: 'A number is expected here.' },
    ],
    [
      {
        low_C: '1',
        high_C: '2',
        calibration: Array.from({ length: 21 }, () => ({ measured_C: '1', true_C: '1' })),
      },
      { calibration: 'At most 20 standards.' },
    ],
  ])('%j says what is wrong', (draft, problems) => {
    expect(worth(meltingForm, draft)).toEqual(problems);
  });
});

describe('what is wrong on the page', () => {
  it('stands at its field, opens what was shut, and brings the focus there', async () => {
    const form = openForm(meltingForm);
    form.type('First liquid at', '121');
    form.type('Last crystal gone at', '122');
    form.type('Near the melting point', 'slowly');
    const details = form.field('Near the melting point').closest('details');
    expect(details?.open).toBe(false);
    form.keep();
    expect(form.wrong('Near the melting point')).toBe('A number is expected here.');
    expect(details?.open).toBe(true);
    await waitFor(() => expect(document.activeElement).toBe(form.field('Near the melting point')));
    expect(form.field('Near the melting point').value).toBe('slowly');
    expect(form.kept).toEqual([]);
    form.type('Near the melting point', '2');
    form.keep();
    expect(form.kept).toHaveLength(1);
  });
});
