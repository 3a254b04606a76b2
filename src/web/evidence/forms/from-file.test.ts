import { expect, test } from 'vitest';
import type { MeasuredTrace } from '../../../core/evidence/spectrum/trace.ts';
import { fileNameOf, traceOf, typed } from './from-file.tsx';

const trace = (
  technique: MeasuredTrace['technique'],
  kind: MeasuredTrace['kind'],
): MeasuredTrace => ({
  title: `${technique} ${kind}`,
  technique,
  kind,
  x: new Float64Array(),
  y: new Float64Array(),
  xUnit: 'unknown',
  yUnit: 'unknown',
  headers: {},
  warnings: [],
});
const world = (...traces: readonly MeasuredTrace[]) => ({
  subjects: { others: [] },
  file: { ok: true, format: 'jcamp', traces } as const,
});

test('of several traces the one that can be worked up is taken', () => {
  const both = world(trace('nmr', 'peaks'), trace('nmr', 'curve'), trace('mass', 'curve'));
  expect(traceOf(both, 'nmr')?.title).toBe('nmr curve');
  expect(traceOf(both, 'mass')?.title).toBe('mass curve');
  expect(traceOf(world(trace('mass', 'curve'), trace('mass', 'peaks')), 'mass')?.kind).toBe(
    'peaks',
  );
  expect(traceOf(both, 'chromatogram')).toBeUndefined();
  expect(traceOf(world(trace('unknown', 'curve')), 'chromatogram')?.technique).toBe('unknown');
});

test('a file that was refused, and no file, hold no trace', () => {
  const problem = { code: 'file-empty', severity: 'error', message: 'The file is empty.' } as const;
  const refused = { subjects: { others: [] }, file: { ok: false, problem } } as const;
  expect(traceOf(refused, 'nmr')).toBeUndefined();
  expect(fileNameOf(refused, undefined)).toBeUndefined();
  expect(traceOf({ subjects: { others: [] } }, 'nmr')).toBeUndefined();
});

test('the name of the file goes before the title that stands in it', () => {
  const held = trace('nmr', 'curve');
  expect(fileNameOf(world(held), held)).toBe('nmr curve');
  expect(fileNameOf({ ...world(held), fileName: 'a.dx' }, held)).toBe('a.dx');
});

test('a number of a file is typed without a power of ten', () => {
  expect(typed(1234567.89, 4, '.')).toBe('1235000');
  expect(typed(0.00001234, 3, ',')).toBe('0,0000123');
});
