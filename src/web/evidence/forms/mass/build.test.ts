// @vitest-environment jsdom
import { cleanup } from '@testing-library/react';
import fc from 'fast-check';
import { afterEach, expect, it } from 'vitest';
import { massEnteredSchema } from '../../../../core/evidence/mass/schema.ts';
import type { MeasuredTrace } from '../../../../core/evidence/spectrum/trace.ts';
import type { DecimalSign } from '../../../bench/typed/typed-number.ts';
import { readDraft } from '../draft.ts';
import type { FormWorld } from '../form.ts';
import { openForm, worth } from '../testing.tsx';
import { massForm } from './form.tsx';

afterEach(cleanup);

it('peaks are typed one on a line', () => {
  const form = openForm(massForm, undefined, ',');
  form.type('Ions made by', 'ESI+');
  form.type('Peaks', '113,0961 100\n135,078\t12,5\n');
  form.type('Standard uncertainty of an accurate mass', '2,5');
  form.type('Relative standard uncertainty of an intensity', '20');
  form.keep();
  expect(form.kept).toEqual([
    {
      technique: 'mass',
      ionisation: 'ESI+',
      peaks: [
        { mz: 113.0961, intensity: 100 },
        { mz: 135.078, intensity: 12.5 },
      ],
      massU_ppm: 2.5,
      intensityU_percent: 20,
    },
  ]);
});

it('a copied table with its headings will do', () => {
  const text = 'm/z\tIntensity\tRelative\n112\t52,100\t52.1\n55\t100,000\t100';
  expect(worth(massForm, { peaks: text })).toMatchObject({
    ionisation: 'EI',
    peaks: [
      { mz: 112, intensity: 52_100 },
      { mz: 55, intensity: 100_000 },
    ],
  });
});

it.each([
  ['nothing', '', 'At least one peak is needed.'],
  ['words', 'a lot of peaks', 'Write m/z and intensity on a line.'],
  ['one number a line', '43\n55', 'Write m/z and intensity on a line.'],
  ['a line with one number', '43 100\n55\n71 20', 'Line 2 is not m/z and an intensity.'],
  ['an intensity below nought', '43 100\n55 -3', 'Line 2 is not m/z and an intensity.'],
  ['an m/z of nought', '0 100\n0 3', 'Lines 1, 2 are not m/z and an intensity.'],
])('%s is said at the peaks', (_, peaks, problem) => {
  expect(worth(massForm, { peaks })).toEqual({ peaks: problem });
});

it('more peaks than an entry holds are said', () => {
  const peaks = Array.from({ length: 5001 }, (_, i) => `${i + 10} 5`).join('\n');
  expect(worth(massForm, { peaks })).toEqual({ peaks: 'At most 5000 peaks.' });
});

it.each([
  ['massU_ppm', '0'],
  ['massU_ppm', '5000'],
  ['intensityU_percent', '0'],
  ['intensityU_percent', 'some'],
])('an odd %s is said at its field', (field, value) => {
  expect(Object.keys(worth(massForm, { peaks: '43 100', [field]: value }))).toEqual([field]);
});

it('what a file holds reads back in either decimal sign', () => {
  const peak = fc.record({
    mz: fc.integer({ min: 1000, max: 90_000_000 }).map((n) => n / 1e5),
    intensity: fc.integer({ min: 1, max: 9999 }).map((n) => n / 10),
  });
  fc.assert(
    fc.property(
      fc.uniqueArray(peak, { minLength: 1, maxLength: 30, selector: ({ mz }) => mz }),
      fc.constantFrom<DecimalSign>('.', ','),
      (peaks, sign) => {
        const inOrder = peaks.toSorted((a, b) => a.mz - b.mz);
        const trace: MeasuredTrace = {
          title: 'scan 5',
          technique: 'mass',
          kind: 'peaks',
          x: Float64Array.from(inOrder, ({ mz }) => mz),
          y: Float64Array.from(inOrder, ({ intensity }) => intensity),
          xUnit: 'm/z',
          yUnit: 'arbitrary',
          headers: {},
          warnings: [],
        };
        const world: FormWorld = {
          subjects: { others: [] },
          file: { ok: true, format: 'jcamp', traces: [trace] },
        };
        const result = massForm.build(readDraft(massForm.begin(world, sign), sign), world);
        if (!result.ok) throw new Error(JSON.stringify(result.problems));
        const entered = massEnteredSchema.parse(result.entered);
        expect(entered.peaks).toEqual(inOrder);
        expect(entered.file).toBe('scan 5');
      },
    ),
  );
});
