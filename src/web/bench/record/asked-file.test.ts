import { expect, test } from 'vitest';
import type { BenchField, BenchSheet } from '../sheet.ts';
import { asksForFile, stepAsking } from './asked-file.ts';

const field = (label: string, kind: BenchField['kind'] = 'observation') =>
  ({ key: label, kind, label }) as BenchField;
const sheet = {
  steps: [
    { id: '1', fields: [field('product flask, empty', 'tare')] },
    { id: '2', fields: [field('infrared spectrum of the product, neat')] },
    { id: '3', fields: [field('1H NMR spectrum in CDCl3')] },
  ],
} as unknown as BenchSheet;

test('a file goes to the step that asks for it, and to none if it is of something else', () => {
  expect(stepAsking(sheet, { technique: 'infrared', of: 'product' })).toBe('2');
  expect(stepAsking(sheet, { technique: 'infrared', of: 'startingMaterial' })).toBeUndefined();
  const nmr = { technique: 'file', kind: 'nmr', of: 'product', file: 'a.dx' } as const;
  expect(stepAsking(sheet, nmr)).toBe('3');
  expect(stepAsking(sheet, { ...nmr, kind: 'mass' })).toBeUndefined();
});

test('such a step offers to take a file', () => {
  expect(sheet.steps.map(asksForFile)).toEqual([false, true, true]);
});
