// @vitest-environment jsdom
import { cleanup, fireEvent, screen } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { judgeChromatogram } from '../../../../core/evidence/chromatogram/judge.ts';
import { chromatogramEnteredSchema } from '../../../../core/evidence/chromatogram/schema.ts';
import type { MeasuredTrace } from '../../../../core/evidence/spectrum/trace.ts';
import { readDraft } from '../draft.ts';
import type { FormWorld } from '../form.ts';
import { openForm, subjectsFor, worth } from '../testing.tsx';
import { chromatogramForm } from './form.tsx';
import { reportRows } from './report-table.ts';

afterEach(cleanup);

const KETONE = subjectsFor('4-methylcyclohexanone', {
  '4-methylcyclohexanol': 'startingMaterial',
  'diethyl ether': 'solvent',
});
const PEAK = { retention_min: '3.42', area: '1200' };

it('a run is typed peak by peak', () => {
  const form = openForm(chromatogramForm, KETONE, ',');
  form.type('Retention time', '3,42', 'Peak 1');
  form.type('Area', '98000', 'Peak 1');
  form.type('What it is', '4-methylcyclohexanone', 'Peak 1');
  form.press('Add a peak');
  form.type('Retention time', '1,2', 'Peak 2');
  form.type('Area', '500000', 'Peak 2');
  form.type('What it is', '@solvent', 'Peak 2');
  form.press('Add a peak');
  form.keep();
  expect(form.kept).toEqual([
    {
      technique: 'chromatogram',
      method: 'gc',
      detector: 'fid',
      peaks: [
        { retention_min: 3.42, area: 98000, name: '4-methylcyclohexanone' },
        { retention_min: 1.2, area: 500000, role: 'solvent' },
      ],
    },
  ]);
});

it('the table of the report fills the rows, and what was typed before stays', () => {
  const form = openForm(chromatogramForm, KETONE, ',');
  form.type('Retention time', '9,9', 'Peak 1');
  form.type('Area', '5', 'Peak 1');
  form.type(
    'The table, with its headings if it has them',
    'Peak\tRetTime [min]\tArea [pA*s]\tArea %\tName\n1\t3.42\t12,345.6\t98\t4-Methylcyclohexanone\n2\t4.10\t250\t2\tsomething\nSum\t\t',
  );
  form.press('Fill in the peaks');
  expect(screen.getByText('2 peaks filled in. Line 4 was not understood.')).toBeTruthy();
  expect(form.field('Area', 'Peak 2').value).toBe('12345,6');
  form.keep();
  expect(form.kept).toMatchObject([
    {
      peaks: [
        { retention_min: 9.9, area: 5 },
        { retention_min: 3.42, area: 12345.6, name: '4-methylcyclohexanone' },
        { retention_min: 4.1, area: 250, name: 'something' },
      ],
    },
  ]);
});

it('a text without a table says so and stays', () => {
  const form = openForm(chromatogramForm, KETONE);
  const label = 'The table, with its headings if it has them';
  form.type(label, 'no numbers here');
  fireEvent.click(screen.getByRole('button', { name: 'Fill in the peaks' }));
  expect(screen.getByText(/^No peaks are seen in this text/)).toBeTruthy();
  expect(form.field(label).value).toBe('no numbers here');
});

describe('the columns of a report', () => {
  const rows = (text: string) =>
    reportRows(text, KETONE, '.')?.rows.map(({ retention_min, area, halfWidth_min }) => [
      retention_min,
      area,
      halfWidth_min,
    ]);
  it.each([
    [
      'two columns without headings',
      '3.42 1200\n4.1 30',
      [
        ['3.42', '1200', undefined],
        ['4.1', '30', undefined],
      ],
    ],
    [
      'a count before them',
      '1;3,42;1200\n2;4,1;30',
      [
        ['3.42', '1200', undefined],
        ['4.1', '30', undefined],
      ],
    ],
    ['area before time', 'Area;R.Time\n1200;3.42', [['3.42', '1200', undefined]]],
    ['a share before the area', 'RT\tArea %\tArea\n3.42\t97\t1200', [['3.42', '1200', undefined]]],
    ['the share alone', 'RT\tArea %\n3.42\t97.5', [['3.42', '97.5', undefined]]],
    ['seconds', 'Time (s)\tArea\n205.2\t1200', [['3.42', '1200', undefined]]],
    [
      'the width at half height',
      'tR\tWidth 50%\tHeight\tArea\n3.42\t0.05\t300\t1200',
      [['3.42', '1200', '0.05']],
    ],
    ['powers of ten', 'RT\tArea\n3.42\t1.2E6', [['3.42', '1200000', undefined]]],
  ])('are found with %s', (_, text, expected) => {
    expect(rows(text)).toEqual(expected);
  });
});

it('an analysis with everything that may be known of it', () => {
  const entered = worth(
    chromatogramForm,
    {
      method: 'hplc',
      detector: 'uv',
      wavelength_nm: '254',
      peaks: [
        { ...PEAK, what: '4-methylcyclohexanone', halfWidth_min: '0.05', baseWidth_min: '0.09' },
        { retention_min: '4.1', area: '30', what: '(other)', whatOther: 'isomer' },
        {
          retention_min: '5',
          area: '800',
          what: '@internalStandard',
          footWidth_min: '0.1',
          footFront_min: '0.04',
        },
        { retention_min: '6', area: '-3', what: '@blank' },
      ],
      standards: [{ of: '4-methylcyclohexanone', retention_min: '3.41' }],
      window_min: '0.1',
      pairs: [{ kind: 'diastereomers' }],
      standardName: 'dodecane',
      standard_mg: '10.2',
      sample_mg: '50.1',
      massU_mg: '0.1',
      calibration: [
        { analyte_mg: '20', standard_mg: '10', analyteArea: '900', standardArea: '500' },
      ],
      responses: [{ of: '(other)', ofOther: 'isomer', factor: '1.1', u: '0.05' }],
      areaU_percent: '2',
      column: 'C18, 150 mm',
      dead_min: '0.9',
      from_min: '2',
      note: 'second injection',
    },
    KETONE,
  );
  expect(entered).toEqual({
    technique: 'chromatogram',
    method: 'hplc',
    detector: 'uv',
    wavelength_nm: 254,
    peaks: [
      {
        retention_min: 3.42,
        area: 1200,
        name: '4-methylcyclohexanone',
        halfWidth_min: 0.05,
        baseWidth_min: 0.09,
      },
      { retention_min: 4.1, area: 30, name: 'isomer' },
      {
        retention_min: 5,
        area: 800,
        role: 'internalStandard',
        foot: { width_min: 0.1, front_min: 0.04 },
      },
      { retention_min: 6, area: -3, role: 'blank' },
    ],
    standards: [{ name: '4-methylcyclohexanone', retention_min: 3.41 }],
    window_min: 0.1,
    pairs: [{ kind: 'diastereomers', first: '4-methylcyclohexanone', second: 'isomer' }],
    internalStandard: {
      name: 'dodecane',
      standard_mg: 10.2,
      sample_mg: 50.1,
      massU_mg: 0.1,
      analyte: '4-methylcyclohexanone',
      calibration: [{ analyte_mg: 20, standard_mg: 10, analyteArea: 900, standardArea: 500 }],
    },
    responses: [{ name: 'isomer', factor: 1.1, u: 0.05 }],
    areaU: 0.02,
    column: 'C18, 150 mm',
    dead_min: 0.9,
    from_min: 2,
    note: 'second injection',
  });
  const judged = judgeChromatogram(chromatogramEnteredSchema.parse(entered), KETONE);
  expect(judged.statements.map(({ id }) => id)).toContain('internal-standard');
  expect(judged.statements.map(({ id }) => id)).toContain('pair-1');
});

it.each([
  ['no peak', {}, ['peaks']],
  ['a time alone', { peaks: [{ retention_min: '3' }] }, ['peaks.0.area']],
  [
    'a time below nought',
    { peaks: [{ retention_min: '-3', area: '1' }] },
    ['peaks.0.retention_min'],
  ],
  ['a name that is not given', { peaks: [{ ...PEAK, what: '(other)' }] }, ['peaks.0.whatOther']],
  ['a width of nought', { peaks: [{ ...PEAK, halfWidth_min: '0' }] }, ['peaks.0.halfWidth_min']],
  ['half a foot', { peaks: [{ ...PEAK, footWidth_min: '0.1' }] }, ['peaks.0.footFront_min']],
  [
    'half a foot, the other',
    { peaks: [{ ...PEAK, footFront_min: '1' }] },
    ['peaks.0.footWidth_min'],
  ],
  ['too many peaks', { peaks: Array.from({ length: 301 }, () => PEAK) }, ['peaks']],
  ['a ratio of nothing', { peaks: [PEAK], pairs: [{}] }, ['pairs.0.first', 'pairs.0.second']],
  [
    'a ratio of a peak with itself',
    { peaks: [{ ...PEAK, what: '4-methylcyclohexanol' }], pairs: [{}] },
    ['pairs.0.second'],
  ],
  [
    'a standard without its weighings',
    { peaks: [PEAK], standardName: 'dodecane' },
    ['calibration', 'sample_mg', 'standard_mg'],
  ],
  [
    'weighings without a standard',
    { peaks: [PEAK], standard_mg: '1', sample_mg: '2' },
    ['calibration', 'standardName'],
  ],
  [
    'a mixture that is half written',
    {
      peaks: [PEAK],
      standardName: 'dodecane',
      standard_mg: '1',
      sample_mg: '2',
      calibration: [{ analyte_mg: '3' }],
    },
    ['calibration.0.analyteArea', 'calibration.0.standardArea', 'calibration.0.standard_mg'],
  ],
  ['a factor of nought', { peaks: [PEAK], responses: [{ factor: '0' }] }, ['responses.0.factor']],
  ['a window too wide', { peaks: [PEAK], window_min: '60' }, ['window_min']],
  [
    'a wavelength out of range',
    { peaks: [PEAK], method: 'hplc', wavelength_nm: '25' },
    ['wavelength_nm'],
  ],
  ['an uncertainty above all', { peaks: [PEAK], areaU_percent: '200' }, ['areaU_percent']],
])('%s is said at its field', (_, draft, fields) => {
  expect(Object.keys(worth(chromatogramForm, draft, KETONE)).sort()).toEqual(fields);
});

it('a detector that the method does not have falls back to its usual one', () => {
  const entered = worth(
    chromatogramForm,
    { method: 'hplc', detector: 'fid', peaks: [PEAK] },
    KETONE,
  );
  expect(entered).toMatchObject({ method: 'hplc', detector: 'uv' });
});

describe('with a file', () => {
  /** Two Gaussian peaks: areas h·w·√π with the half width w√(ln 2)·2. */
  const curve = (): MeasuredTrace => {
    const x = Float64Array.from({ length: 3000 }, (_, i) => i / 300);
    const top = (t: number, at: number, h: number) => h * Math.exp(-(((t - at) / 0.03) ** 2));
    const y = x.map((t, i) => top(t, 3.2, 1000) + top(t, 4.1, 200) + 50 + ((i * 7919) % 13) / 50);
    return {
      title: 'run 12',
      technique: 'chromatogram',
      kind: 'curve',
      x,
      y,
      xUnit: 'min',
      yUnit: 'arbitrary',
      headers: {},
      warnings: [],
    };
  };
  const world = (traces: readonly MeasuredTrace[]): FormWorld => ({
    subjects: KETONE,
    file: { ok: true, format: 'jcamp', traces },
  });

  it('the rows hold its peaks', () => {
    const full = world([curve()]);
    const draft = chromatogramForm.begin(full, ',');
    const built = chromatogramForm.build(readDraft(draft, ','), full);
    if (!built.ok) throw new Error(JSON.stringify(built.problems));
    const { peaks } = chromatogramEnteredSchema.parse(built.entered);
    expect(peaks.map(({ retention_min }) => retention_min)).toEqual([3.2, 4.1]);
    // 1000 · 0.03 · √π and a fifth of it.
    expect(peaks[0]!.area).toBeCloseTo(53.17, 0);
    expect(peaks[1]!.area / peaks[0]!.area).toBeCloseTo(0.2, 2);
    expect(peaks[0]!.halfWidth_min).toBeCloseTo(0.06 * Math.sqrt(Math.LN2), 3);
  });

  it('that holds no chromatogram there is one empty row', () => {
    const other = { ...curve(), technique: 'mass' as const };
    expect(chromatogramForm.begin(world([other]))).toEqual({ peaks: [{}] });
  });
});
