// @vitest-environment jsdom
import { cleanup, render, screen } from '@testing-library/react';
import { afterEach, expect, it } from 'vitest';
import { Entered } from './entered.tsx';
import { entry } from './outbox/testing.ts';
import { KETONE, RecordForTest, stepWith } from './testing.tsx';

afterEach(cleanup);

const WATER = { ...KETONE, key: 'charge 1.2', use: '1.2', item: 'water', label: 'water, measured' };
const steps = [stepWith(KETONE, WATER)];
const ketone = entry('k', { kind: 'charge', step: '1', use: '1.1', value: 11.2, unit: 'g' });
const water = entry('w', { kind: 'charge', step: '1', use: '1.2', value: 1.1, unit: 'g' });

const shown = (...given: readonly ReturnType<typeof entry>[]) =>
  render(
    <RecordForTest steps={steps} written={{ entries: [], files: [] }} given={given}>
      <Entered online />
    </RecordForTest>,
  );

it('says what was never entered, with the way to its step', () => {
  shown(ketone);
  screen.getByText(/One thing was not entered/);
  const link = screen.getByRole('link', { name: /water, measured/ });
  expect(link.getAttribute('href')).toBe('#step-1');
  expect(screen.queryByRole('link', { name: /4-methylcyclohexanone/ })).toBeNull();
});

it('says that nothing is left out only where that is so', () => {
  shown(ketone, water);
  screen.getByText(/Nothing is left out/);
  expect(screen.queryByText('Not entered')).toBeNull();
});

it('keeps the doubt in a figure beside it', () => {
  shown(ketone, water);
  screen.getByText('10 times the plan.');
});
