// @vitest-environment jsdom
import { cleanup } from '@testing-library/react';
import fc from 'fast-check';
import { existsSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { judgeNmr } from '../../../../core/evidence/nmr/judge.ts';
import { nmrEnteredSchema } from '../../../../core/evidence/nmr/schema.ts';
import { readInstrumentFile } from '../../../../core/evidence/spectrum/read/read-file.ts';
import type { DecimalSign } from '../../../bench/typed/typed-number.ts';
import { readDraft } from '../draft.ts';
import type { FormWorld } from '../form.ts';
import { openForm, subjectsFor, worth } from '../testing.tsx';
import { nmrForm } from './form.tsx';
import { readCouplings, readShift, signalDraft } from './signal-text.ts';

afterEach(cleanup);

const ESTER = subjectsFor('ethyl acetate', {
  ethanol: 'startingMaterial',
  'acetic acid': 'reagent',
  'diethyl ether': 'solvent',
});

it('a spectrum is typed as it is read', () => {
  const form = openForm(nmrForm, ESTER, ',');
  form.type('Spectrometer, ¹H', '400,1');
  form.type('Shift or range in ppm', '4,12', 'Signal 1');
  form.type('Integral', '2', 'Signal 1');
  form.type('Multiplicity', 'q', 'Signal 1');
  form.type('J in Hz', '7,1', 'Signal 1');
  form.type('Whose it is', 'product', 'Signal 1');
  form.type('Hydrogens it stands for', '2', 'Signal 1');
  form.press('Add a signal');
  form.type('Shift or range in ppm', '7,20–7,34 ppm', 'Signal 2');
  form.keep();
  expect(form.kept).toEqual([
    {
      technique: 'nmr',
      solvent: 'CDCl3',
      frequency_MHz: 400.1,
      signals: [
        {
          shift_ppm: 4.12,
          integral: 2,
          multiplicity: 'q',
          J_Hz: [7.1],
          assignment: { to: 'product', hydrogens: 2 },
        },
        { shift_ppm: 7.2, to_ppm: 7.34 },
      ],
    },
  ]);
});

it('a spectrum with everything that may be known of it', () => {
  const signal = (shift: string, owner: string, more = {}) => ({
    shift,
    owner,
    integral: '1',
    ...more,
  });
  const entered = worth(
    nmrForm,
    {
      solvent: 'DMSO-d6',
      signals: [
        signal('1.2', 'startingMaterial:ethanol', { hydrogens: '3' }),
        signal('1.9', 'impurity:acetic acid'),
        signal('1.1', 'solvent:diethyl ether'),
        signal('2.5', 'solvent'),
        signal('3.0', 'standard'),
        signal('5.1', 'isomer', { of: 'E' }),
        signal('0.9', 'impurity', { of: 'grease' }),
        signal('0.1', 'impurity'),
        {},
      ],
      integralU_percent: '3',
      sampleMass_mg: '20.1',
      sampleMassU_mg: '0.1',
      standardName: 'Ethanol',
      standardMass_mg: '5',
      standardMassU_mg: '0.1',
      standardHydrogens: '2',
      standardShift: '3.44',
      standardPurity_percent: '99.5',
      standardPurityU_percent: '0.2',
    },
    ESTER,
  );
  expect(entered).toMatchObject({
    solvent: 'DMSO-d6',
    signals: [
      { assignment: { to: 'startingMaterial', of: 'ethanol', hydrogens: 3 } },
      { assignment: { to: 'impurity', of: 'acetic acid' } },
      { assignment: { to: 'solvent', of: 'diethyl ether' } },
      { assignment: { to: 'solvent' } },
      { assignment: { to: 'standard' } },
      { assignment: { to: 'isomer', of: 'E' } },
      { assignment: { to: 'impurity', of: 'grease' } },
      { assignment: { to: 'impurity' } },
    ],
    integralU_percent: 3,
    sampleMass_mg: 20.1,
    sampleMassU_mg: 0.1,
    standard: {
      substance: 'Ethanol',
      smiles: 'CCO',
      mass_mg: 5,
      massU_mg: 0.1,
      hydrogens: 2,
      shift_ppm: 3.44,
      purity_percent: 99.5,
      purityU_percent: 0.2,
    },
  });
  expect(nmrEnteredSchema.parse(entered).signals).toHaveLength(8);
});

it('a weighed standard gives a purity', () => {
  const entered = worth(
    nmrForm,
    {
      signals: [
        { shift: '4.12', integral: '2', multiplicity: 'q', owner: 'product', hydrogens: '2' },
        { shift: '6.0', integral: '3', multiplicity: 's' },
      ],
      sampleMass_mg: '20',
      standardName: 'my standard',
      standardSmiles: 'COc1cc(OC)cc(OC)c1',
      standardMass_mg: '20',
      standardHydrogens: '3',
      standardShift: '6.0',
    },
    ESTER,
  );
  const judged = judgeNmr(nmrEnteredSchema.parse(entered), ESTER);
  // M of ethyl acetate over that of the standard, 88.11/168.19, amounts and masses being equal.
  const purity = judged.statements.find((one) => one.purity?.basis === 'mass')?.purity;
  expect(purity?.share).toBeCloseTo(0.5239, 3);
});

it('the structure of the standard is asked for where no table knows it', () => {
  const form = openForm(nmrForm, ESTER);
  const label = 'Structure of the standard as SMILES';
  form.type('Internal standard', 'my own');
  expect(form.field(label).value).toBe('');
  form.type('Internal standard', 'ethanol');
  expect(() => form.field(label)).toThrow();
});

it.each([
  ['no signal', {}, ['signals']],
  ['an integral without a shift', { signals: [{ integral: '1' }] }, ['signals.0.shift']],
  ['a word for a shift', { signals: [{ shift: 'high' }] }, ['signals.0.shift']],
  ['a shift off the scale', { signals: [{ shift: '75' }] }, ['signals.0.shift']],
  ['half a range', { signals: [{ shift: '7.2–' }] }, ['signals.0.shift']],
  [
    'an unknown pattern',
    { signals: [{ shift: '7', multiplicity: 'zz' }] },
    ['signals.0.multiplicity'],
  ],
  ['words for couplings', { signals: [{ shift: '7', J: 'small' }] }, ['signals.0.J']],
  ['a coupling too large', { signals: [{ shift: '7', J: '7000' }] }, ['signals.0.J']],
  [
    'an integral below nought',
    { signals: [{ shift: '7', integral: '-1' }] },
    ['signals.0.integral'],
  ],
  ['an isomer without a name', { signals: [{ shift: '7', owner: 'isomer' }] }, ['signals.0.of']],
  [
    'half a hydrogen',
    { signals: [{ shift: '7', owner: 'product', hydrogens: '1.5' }] },
    ['signals.0.hydrogens'],
  ],
  ['an odd spectrometer', { signals: [{ shift: '7' }], frequency_MHz: '4' }, ['frequency_MHz']],
  ['no uncertainty', { signals: [{ shift: '7' }], integralU_percent: '0' }, ['integralU_percent']],
  [
    'a standard that is half written',
    { signals: [{ shift: '7' }], standardName: 'ethanol' },
    ['sampleMass_mg', 'standardHydrogens', 'standardMass_mg', 'standardShift'],
  ],
  [
    'more than pure',
    {
      signals: [{ shift: '7' }],
      sampleMass_mg: '1',
      standardMass_mg: '1',
      standardHydrogens: '1',
      standardShift: '2',
      standardPurity_percent: '120',
    },
    ['standardName', 'standardPurity_percent'],
  ],
  [
    'too many signals',
    { signals: Array.from({ length: 201 }, () => ({ shift: '7' })) },
    ['signals'],
  ],
])('%s is said at its field', (_, draft, fields) => {
  expect(Object.keys(worth(nmrForm, draft, ESTER)).sort()).toEqual(fields);
});

describe('shifts and couplings as they are written', () => {
  const shift = (text: string, sign: DecimalSign = '.') => {
    const reader = readDraft({ shift: text }, sign);
    const { shift_ppm, to_ppm } = { to_ppm: undefined, ...readShift(reader) };
    return Object.keys(reader.problems).length > 0 ? undefined : [shift_ppm, to_ppm];
  };
  it.each([
    ['7.26', '.', [7.26, undefined]],
    ['7.34-7.20', '.', [7.34, 7.2]],
    ['7,34 – 7,20', ',', [7.34, 7.2]],
    ['0.1 to -0.2', '.', [0.1, -0.2]],
    ['−0.1–−0.2', '.', [-0.1, -0.2]],
    ['-0.05', '.', [-0.05, undefined]],
  ] as const)('%s', (text, sign, expected) => {
    expect(shift(text, sign)).toEqual(expected);
  });

  it.each([
    ['7.1', '.', [7.1]],
    ['8.0, 1.4 Hz', '.', [8, 1.4]],
    ['8,0; 1,4', ',', [8, 1.4]],
    ['8,0, 1,4', ',', [8, 1.4]],
    ['8 1', '.', [8, 1]],
  ] as const)('J = %s', (text, sign, expected) => {
    expect(readCouplings(readDraft({ J: text }, sign))).toEqual(expected);
  });

  it('what a file gave reads back in either decimal sign', () => {
    const ppm = fc.integer({ min: -2000, max: 14_000 }).map((n) => n / 1000);
    const hertz = fc.integer({ min: 0, max: 200 }).map((n) => n / 10);
    fc.assert(
      fc.property(
        ppm,
        fc.option(ppm, { nil: undefined }),
        fc.array(hertz, { minLength: 1, maxLength: 4 }),
        fc.constantFrom<DecimalSign>('.', ','),
        (shift_ppm, to_ppm, J_Hz, sign) => {
          const draft = signalDraft(
            { shift_ppm, J_Hz, ...(to_ppm === undefined ? {} : { to_ppm }) },
            sign,
          );
          const reader = readDraft(draft, sign);
          const read = { to_ppm: undefined, ...readShift(reader) };
          const ends = [read.shift_ppm, ...(read.to_ppm === undefined ? [] : [read.to_ppm])];
          const given = [shift_ppm, ...(to_ppm === undefined ? [] : [to_ppm])];
          expect(ends).toEqual(given.sort((a, b) => b - a));
          expect(readCouplings(reader)).toEqual(J_Hz);
          expect(reader.problems).toEqual({});
        },
      ),
    );
  });
});

const MEASURED = resolve('../shared/spectra/other-techniques/nmr_ethanol_1h.jdx');
const isThere = existsSync(MEASURED);

it.skipIf(!isThere)(
  'a measured spectrum (skipped where the spectra are not there) fills the rows, from the left',
  () => {
    const file = readInstrumentFile(readFileSync(MEASURED), 'ethanol.jdx');
    const world: FormWorld = { subjects: ESTER, file, fileName: 'ethanol.jdx' };
    const draft = nmrForm.begin(world, ',');
    const result = nmrForm.build(readDraft(draft, ','), world);
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    const { signals, file: name } = nmrEnteredSchema.parse(result.entered);
    expect(name).toBe('ethanol.jdx');
    const shifts = signals.map(({ shift_ppm }) => shift_ppm);
    expect(shifts).toEqual(shifts.toSorted((a, b) => b - a));
    expect(shifts.some((ppm) => Math.abs(ppm - 1.2) < 0.15)).toBe(true);
    expect(shifts.some((ppm) => Math.abs(ppm - 3.7) < 0.15)).toBe(true);
  },
);
