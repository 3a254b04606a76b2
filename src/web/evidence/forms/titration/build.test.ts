// @vitest-environment jsdom
import { cleanup, screen, waitFor } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { judgeTitration } from '../../../../core/evidence/titration/judge.ts';
import type { TitrationEntered } from '../../../../core/evidence/titration/schema.ts';
import { openForm, subjectsFor, worth } from '../testing.tsx';
import { titrationForm } from './form.tsx';

afterEach(cleanup);

const SUBJECTS = subjectsFor('benzoic acid', { benzaldehyde: 'startingMaterial' });
const NAMED = { technique: 'titration', kind: 'acid', equivalents: 1 } as const;

describe('a titration typed by hand', () => {
  it('runs against a titrant of known strength, and the judge takes them', () => {
    const form = openForm(titrationForm, SUBJECTS, ',');
    form.type('Concentration', '0,1000');
    form.type('Sample', '0,2442', 'Run 1');
    form.type('Burette before', '0,05', 'Run 1');
    form.type('after', '20,05', 'Run 1');
    expect(screen.getByText('Titre 20,00 mL')).toBeTruthy();
    form.type('Sample', '0,2442', 'Run 2');
    form.type('Burette before', '20,05', 'Run 2');
    form.type('after', '40,05', 'Run 2');
    form.keep();
    const runs = [
      { sample_g: 0.2442, start_mL: 0.05, end_mL: 20.05 },
      { sample_g: 0.2442, start_mL: 20.05, end_mL: 40.05 },
    ];
    expect(form.kept).toEqual([
      {
        ...NAMED,
        titrant: 'sodium hydroxide',
        strength: { by: 'given', concentration_mol_L: 0.1 },
        runs,
      },
    ]);
    // 2.000 mmol × 122.12 g/mol = 0.2442 g: all of it is benzoic acid
    const judged = judgeTitration(form.kept[0] as TitrationEntered, SUBJECTS);
    const content = judged.statements.find(({ id }) => id === 'content');
    expect(content?.purity?.share).toBeCloseTo(1, 3);
    expect(judged.diagnostics.map(({ code }) => code)).toEqual(['titrant-not-standardised']);
  });

  it('takes standardisation, blanks, tools and a run that is not counted', () => {
    const form = openForm(titrationForm, SUBJECTS);
    form.type('Counted as', '(other)');
    form.type('Its name', 'salicylic acid');
    form.type('Its concentration', 'standardised');
    form.type('Moles of titrant for one mole of the standard', '1');
    form.type('Standard weighed in', '0.5105', 'Run with the standard 1');
    form.type('Burette before', '0', 'Run with the standard 1');
    form.type('after', '25.00', 'Run with the standard 1');
    form.type('Purity by mass', '99.95');
    form.type('Its standard uncertainty', '0.03');
    form.press('Add a blank');
    form.type('Burette before', '0.00', 'Blank 1');
    form.type('after', '0.10', 'Blank 1');
    form.type('Sample', '0.25', 'Run 1');
    form.type('Burette before', '0', 'Run 1');
    form.type('after', '21', 'Run 1');
    form.tick('Trial, not counted', 'Run 1');
    form.press('Take out Run 2');
    form.type('Burette', 'burette-25-A');
    form.type('Balance', 'balance-0.1mg');
    form.type('End point seen to ±', '0.03');
    form.type('Indicator', 'phenolphthalein');
    form.type('Note', 'slow end point');
    form.keep();
    expect(form.kept).toEqual([
      {
        ...NAMED,
        analyte: 'salicylic acid',
        titrant: 'sodium hydroxide',
        strength: {
          by: 'standardised',
          standard: 'potassium hydrogen phthalate',
          // 8 C + 5 H + K + 4 O of the standard atomic weights: 204.22 g/mol
          molarMass_g_mol: expect.closeTo(204.22, 1) as number,
          equivalents: 1,
          purity: 0.9995,
          purityU: expect.closeTo(0.0003, 9) as number,
          runs: [{ standard_g: 0.5105, start_mL: 0, end_mL: 25 }],
        },
        blanks: [{ start_mL: 0, end_mL: 0.1 }],
        runs: [{ sample_g: 0.25, start_mL: 0, end_mL: 21, leftOut: true }],
        burette: 'burette-25-A',
        balance: 'balance-0.1mg',
        endPoint_mL: 0.03,
        indicator: 'phenolphthalein',
        note: 'slow end point',
      },
    ]);
  });

  it('asks for the molar mass of a standard that the table does not hold', () => {
    const form = openForm(titrationForm);
    form.type('Its concentration', 'standardised');
    expect(screen.queryByLabelText('Its molar mass')).toBeNull();
    form.type('Primary standard', '(other)');
    form.type('Its name', 'sulfamic acid');
    form.type('Its molar mass', '97.09');
    form.type('Moles of titrant for one mole of the standard', '1');
    form.type('The burette is noted', 'titre');
    form.type('Standard weighed in', '0.24', 'Run with the standard 1');
    form.type('Titre', '24.7', 'Run with the standard 1');
    for (const run of ['Run 1', 'Run 2']) {
      form.type('Sample', '0.25', run);
      form.type('Titre', '20', run);
    }
    form.keep();
    expect(form.kept).toMatchObject([
      {
        strength: {
          standard: 'sulfamic acid',
          molarMass_g_mol: 97.09,
          runs: [{ standard_g: 0.24, titre_mL: 24.7 }],
        },
        runs: [{ titre_mL: 20 }, { titre_mL: 20 }],
      },
    ]);
  });

  it('keeps for each kind what was chosen for it', () => {
    const form = openForm(titrationForm);
    form.type('In the burette', 'potassium hydroxide');
    form.type('What is titrated', 'iodometric');
    expect(form.field('In the burette').value).toBe('sodium thiosulfate');
    expect(form.field('Moles of titrant for one mole of it').value).toBe('');
    form.type('What is titrated', 'acid');
    expect(form.field('In the burette').value).toBe('potassium hydroxide');
  });

  it('brings the focus to a run that was added', async () => {
    const form = openForm(titrationForm);
    form.press('Add a run');
    await waitFor(() => expect(document.activeElement).toBe(form.field('Sample', 'Run 3')));
    form.press('Take out Run 3');
    expect(document.activeElement?.textContent).toBe('Add a run');
  });
});

const MISSING = 'This is needed.';
const RUN = { sample_g: '1', start_mL: '0', end_mL: '10' };
const FULL = { concentration_mol_L: '0.1', runs: [RUN] };

it.each([
  [
    { runs: [{}] },
    {
      concentration_mol_L: MISSING,
      'runs.0.sample_g': MISSING,
      'runs.0.start_mL': MISSING,
      'runs.0.end_mL': MISSING,
    },
  ],
  [{ ...FULL, runs: [] }, { runs: 'One run is needed, better three.' }],
  [{ ...FULL, runs: Array.from({ length: 51 }, () => RUN) }, { runs: 'At most 50 runs.' }],
  [
    { ...FULL, runs: [{ sample_g: '0', start_mL: '10', end_mL: '9' }] },
    {
      'runs.0.sample_g': 'More than 0 is expected here.',
      'runs.0.end_mL': 'This is below the reading before.',
    },
  ],
  [
    { ...FULL, reading: 'titre', runs: [{ sample_g: '1', titre_mL: '-1' }] },
    { 'runs.0.titre_mL': 'Between 0 and 1000.' },
  ],
  [{ ...FULL, equivalents_acid: '' }, { equivalents_acid: MISSING }],
  [{ ...FULL, kind: 'iodometric' }, { equivalents_iodometric: MISSING }],
  [{ ...FULL, kind: 'saponification' }, { blanks: 'A saponification needs its blank.' }],
  [
    { ...FULL, blanks: Array.from({ length: 21 }, () => ({ start_mL: '0', end_mL: '1' })) },
    { blanks: 'At most 20 blanks.' },
  ],
  [{ ...FULL, blanks: [{ start_mL: '0' }] }, { 'blanks.0.end_mL': MISSING }],
  [{ ...FULL, titrant_acid: '(other)' }, { titrant_acidOther: MISSING }],
  [{ ...FULL, analyte: '(other)' }, { analyteOther: MISSING }],
  [
    { ...FULL, concentration_mol_L: '100', u_mol_L: '2' },
    { concentration_mol_L: 'At most 20.', u_mol_L: 'Between 0 and 1.' },
  ],
  [
    { ...FULL, strength: 'standardised', standardRuns: [] },
    { standardEquivalents: MISSING, standardRuns: 'One run is needed, better three.' },
  ],
  [
    {
      ...FULL,
      strength: 'standardised',
      standard_acid: '(other)',
      standardEquivalents: '0',
      purity: '0.99',
      standardRuns: [{ standard_g: '-1', start_mL: '0', end_mL: '1' }],
    },
    {
      standard_acidOther: MISSING,
      standardMolarMass_g_mol: MISSING,
      standardEquivalents: 'More than 0 is expected here.',
      purity: 'Between 50 and 100.',
      'standardRuns.0.standard_g': 'More than 0 is expected here.',
    },
  ],
  [{ ...FULL, endPoint_mL: 'pink' }, { endPoint_mL: 'A number is expected here.' }],
  [{ ...FULL, note: 'n'.repeat(2001) }, { note: 'At most 2000 characters.' }],
])('%j says what is wrong', (draft, problems) => {
  expect(worth(titrationForm, draft)).toEqual(problems);
});
