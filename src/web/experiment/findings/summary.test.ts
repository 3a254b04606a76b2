import { expect, it } from 'vitest';
import type { Severity } from '../../../core/diagnostic.ts';
import { gravestOf, summaryOf } from './summary.ts';

const of = (...severities: Severity[]) =>
  summaryOf(severities.map((severity) => ({ code: 'any', severity, message: '' })));

it.each([
  [of(), 'Nothing to mend'],
  [of('note'), '1 note'],
  [of('error', 'error'), '2 to mend'],
  [of('warning', 'note', 'note'), '1 to check and 2 notes'],
  [of('error', 'warning', 'note'), '1 to mend, 1 to check and 1 note'],
])('says %s', (said, expected) => {
  expect(said).toBe(expected);
});

it('says the gravest alone where there is little room', () => {
  expect(gravestOf([])).toBe('Nothing to mend');
  expect(gravestOf([{ code: 'any', severity: 'error', message: '' }])).toBe('1 to mend');
});
