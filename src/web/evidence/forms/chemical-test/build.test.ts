// @vitest-environment jsdom
import { cleanup, fireEvent, screen, waitFor, within } from '@testing-library/react';
import { afterEach, expect, it } from 'vitest';
import { allChemicalTests } from '../../../../core/evidence/chemical-test/table.ts';
import { openForm, worth } from '../testing.tsx';
import { chemicalTestForm } from './form.tsx';

afterEach(cleanup);

const group = (row: string) => within(screen.getByRole('group', { name: row }));
const answer = (row: string, name: RegExp) =>
  fireEvent.click(group(row).getByRole('radio', { name }));

it('shows the caution and the answers of a test before it asks what was seen', () => {
  const form = openForm(chemicalTestForm);
  expect(screen.queryByText('Before you start.')).toBeNull();
  form.type('Test', 'tollens');
  const caution = screen.getByText('Before you start.').closest('p')!;
  expect(caution.textContent).toContain('never kept');
  expect(caution.textContent).toContain('safety data sheet');
  const first = screen.getAllByRole('radio')[0]!;
  const later = caution.compareDocumentPosition(first) & Node.DOCUMENT_POSITION_FOLLOWING;
  expect(later).not.toBe(0);
  expect(screen.getByRole('radio', { name: /^positive: silver mirror/ })).toBeTruthy();
  expect(screen.getAllByRole<HTMLInputElement>('radio').some(({ checked }) => checked)).toBe(false);
});

it('offers every test of the table, under what it is for', () => {
  const form = openForm(chemicalTestForm);
  const select = form.field('Test') as unknown as HTMLSelectElement;
  expect([...select.options].map(({ value }) => value)).toEqual([
    '',
    ...allChemicalTests().map(({ id }) => id),
  ]);
  expect([...select.querySelectorAll('optgroup')].map(({ label }) => label)).toEqual([
    'For a group in the product',
    'For washings and leftovers',
  ]);
});

it('tests in their order, with controls and words', () => {
  const form = openForm(chemicalTestForm);
  form.type('Test', 'dnp', 'Test 1');
  answer('Test 1', /^negative/);
  form.type('In your own words', 'stays yellow', 'Test 1');
  form.type('The reagent alone', 'negative', 'Test 1');
  form.type('A substance that must answer', 'positive', 'Test 1');
  form.press('Add a test');
  form.type('Test', 'chloride-washings', 'Test 2');
  form.type('On what', '(other)', 'Test 2');
  form.type('What it was', 'third washing', 'Test 2');
  answer('Test 2', /^unclear/);
  form.type('Note on all of them', 'same day');
  form.keep();
  expect(form.kept).toEqual([
    {
      technique: 'chemicalTest',
      tests: [
        {
          test: 'dnp',
          sample: 'product',
          result: 'negative',
          observed: 'stays yellow',
          blank: 'negative',
          knownPositive: 'positive',
        },
        { test: 'chloride-washings', sample: 'third washing', result: 'unclear' },
      ],
      note: 'same day',
    },
  ]);
});

it('brings the focus to an answer that is missing', async () => {
  const form = openForm(chemicalTestForm);
  form.type('Test', 'bromine');
  form.keep();
  const answers = screen.getByRole('radiogroup', { name: 'What was seen' });
  await waitFor(() => expect(document.activeElement).toBe(answers));
  const described = answers.getAttribute('aria-describedby') ?? '';
  expect(document.getElementById(described)?.textContent).toBe('Choose what was seen.');
});

it.each([
  [{}, { 'tests.0.test': 'Choose the test.', 'tests.0.result': 'Choose what was seen.' }],
  [{ tests: [] }, { tests: 'One test is needed.' }],
  [
    { tests: Array.from({ length: 41 }, () => ({ test: 'dnp', result: 'positive' })) },
    { tests: 'At most 40 tests.' },
  ],
  [
    { tests: [{ test: 'dnp', result: 'positive', sample_structure: '(other)' }] },
    { 'tests.0.sample_structureOther': 'This is needed.' },
  ],
  [
    { tests: [{ test: 'dnp', result: 'positive', observed: 'o'.repeat(1001) }] },
    { 'tests.0.observed': 'At most 1000 characters.' },
  ],
  [
    { tests: [{ test: 'dnp', result: 'positive' }], note: 'n'.repeat(2001) },
    { note: 'At most 2000 characters.' },
  ],
])('%j says what is wrong', (draft, problems) => {
  expect(worth(chemicalTestForm, draft)).toEqual(problems);
});
