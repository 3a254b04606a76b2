import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { MeasuredTrace } from '../spectrum/trace.ts';
import { readInstrumentFile } from '../spectrum/read/read-file.ts';
import { signalsOfTrace } from './from-trace.ts';
import { judgeNmr } from './judge.ts';
import type { NmrSignal } from './schema.ts';
import { subject } from './testing.ts';

const FREQUENCY_MHz = 400;

interface Made {
  readonly centre_ppm: number;
  readonly hydrogens: number;
  /** Heights of the lines, evenly spaced by J. */
  readonly lines: readonly number[];
  readonly J_Hz: number;
}

/** Lorentzian lines of 1 Hz on a sloping baseline, with noise that is the same each time. */
function synthetic(signals: readonly Made[], noise: number): MeasuredTrace {
  const n = 32_768;
  const x = Float64Array.from({ length: n }, (_, i) => -0.5 + (11 * i) / n);
  const half = 0.5 / FREQUENCY_MHz;
  let state = 12_345;
  const draw = (): number => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return state / 2_147_483_648 - 0.5;
  };
  const y = x.map((ppm) => {
    let sum = 0.4 + 0.02 * ppm + noise * (draw() + draw() + draw());
    for (const { centre_ppm, hydrogens, lines, J_Hz } of signals) {
      const total = lines.reduce((a, b) => a + b, 0);
      lines.forEach((height, k) => {
        const at = centre_ppm + ((k - (lines.length - 1) / 2) * J_Hz) / FREQUENCY_MHz;
        sum += (((hydrogens * height) / total) * half) / ((ppm - at) ** 2 + half ** 2) / 10;
      });
    }
    return sum;
  });
  return {
    title: 'made',
    technique: 'nmr',
    kind: 'curve',
    x,
    y,
    xUnit: 'ppm',
    yUnit: 'arbitrary',
    frequency_MHz: FREQUENCY_MHz,
    headers: { '.SOLVENTNAME': 'Chloroform-d' },
    warnings: [],
  };
}

const ETHYL_ACETATE: readonly Made[] = [
  { centre_ppm: 1.26, hydrogens: 3, lines: [1, 2, 1], J_Hz: 7.1 },
  { centre_ppm: 2.05, hydrogens: 3, lines: [1], J_Hz: 0 },
  { centre_ppm: 4.12, hydrogens: 2, lines: [1, 3, 3, 1], J_Hz: 7.1 },
  { centre_ppm: 7.26, hydrogens: 0.2, lines: [1], J_Hz: 0 },
];

describe('a made spectrum of ethyl acetate', () => {
  const reading = signalsOfTrace(synthetic(ETHYL_ACETATE, 0.02));
  const signals: readonly NmrSignal[] = reading.ok ? reading.signals : [];
  test('places, patterns, couplings, areas', () => {
    expect(signals.map((one) => one.multiplicity)).toEqual(['t', 's', 'q', 's']);
    signals.forEach((one, i) => expect(one.shift_ppm).toBeCloseTo(ETHYL_ACETATE[i]!.centre_ppm, 2));
    expect(signals[0]!.J_Hz![0]).toBeCloseTo(7.1, 0);
    expect(signals[2]!.J_Hz![0]).toBeCloseTo(7.1, 0);
    const scale = signals[1]!.integral! / 3;
    expect(signals[0]!.integral! / scale).toBeCloseTo(3, 0);
    expect(Math.abs(signals[2]!.integral! / scale - 2)).toBeLessThan(0.1);
  });
  test('the solvent is that of the file, its signal is told from the rest', () => {
    expect(reading).toMatchObject({ ok: true, solvent: 'CDCl3', frequency_MHz: FREQUENCY_MHz });
    const { statements } = judgeNmr(
      { technique: 'nmr', solvent: 'CDCl3', signals },
      { product: subject('ethyl acetate', 'CCOC(C)=O'), others: [] },
    );
    expect(statements.map((one) => [one.id, one.agreement])).toEqual([['nmr-structure', 'agrees']]);
  });
});

test('carbon-13 satellites are no signals of their own', () => {
  const reading = signalsOfTrace(
    synthetic(
      [
        { centre_ppm: 3.8, hydrogens: 30, lines: [1], J_Hz: 0 },
        { centre_ppm: 3.8, hydrogens: 0.33, lines: [1, 1], J_Hz: 145 },
        { centre_ppm: 6.8, hydrogens: 20, lines: [1], J_Hz: 0 },
      ],
      0.005,
    ),
  );
  expect(reading.ok && reading.signals.map((one) => one.shift_ppm.toFixed(1))).toEqual([
    '3.8',
    '6.8',
  ]);
});

test('noise alone holds no signal that matters, and what is no spectrum is refused', () => {
  const made = synthetic(ETHYL_ACETATE, 0.02);
  expect(signalsOfTrace({ ...made, xUnit: 's' })).toMatchObject({
    ok: false,
    problem: { code: 'nmr-trace' },
  });
  expect(signalsOfTrace({ ...made, x: made.x.slice(0, 50), y: made.y.slice(0, 50) }).ok).toBe(
    false,
  );
  expect(signalsOfTrace({ ...made, kind: 'peaks' }).ok).toBe(false);
});

const folder = new URL('../../../../../shared/spectra/other-techniques/', import.meta.url);
const MEASURED = [
  ['nmr_estragole_1h.dx', 'estragole', 'COc1ccc(CC=C)cc1', 6],
  ['nmr_aspirin_1h.dx', 'aspirin', 'CC(=O)Oc1ccccc1C(=O)O', 6],
  ['nmr_ethanol_1h.jdx', 'ethanol', 'CCO', 3],
] as const;

// Measured spectra stand beside the project and are not part of it.
describe.skipIf(!existsSync(folder))('measured spectra, where they are at hand', () => {
  test.each(MEASURED)('%s', (file, name, smiles, count) => {
    const reading = readInstrumentFile(readFileSync(new URL(file, folder)), file);
    if (!reading.ok) throw new Error(reading.problem.message);
    const trace = reading.traces.find((one) => one.kind === 'curve');
    const read = signalsOfTrace(trace!);
    if (!read.ok) throw new Error(read.problem.message);
    expect(read.solvent).toBe('CDCl3');
    const { statements } = judgeNmr(
      { technique: 'nmr', solvent: read.solvent, signals: read.signals },
      { product: subject(name, smiles), others: [] },
    );
    const structure = statements.find((one) => one.id === 'nmr-structure');
    expect(structure?.agreement).toBe('agrees');
    expect(structure?.measured).toContain(`${count} signals`);
  });

  test('estragole measured is no anethole', () => {
    const reading = readInstrumentFile(readFileSync(new URL(MEASURED[0][0], folder)));
    const read = reading.ok ? signalsOfTrace(reading.traces[0]!) : undefined;
    if (read?.ok !== true) throw new Error('not read');
    const { statements } = judgeNmr(
      { technique: 'nmr', solvent: 'CDCl3', signals: read.signals },
      { product: subject('anethole', 'COc1ccc(C=CC)cc1'), others: [] },
    );
    expect(statements.find((one) => one.id === 'nmr-structure')?.agreement).not.toBe('agrees');
  });
});
