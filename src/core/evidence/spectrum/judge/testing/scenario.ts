import type { InfraredSpectrum, SampleState } from '../../infrared.ts';
import type { Known } from '../context.ts';
import type { JudgedGroup, GroupJudgement } from '../group-judgement.ts';
import { groupsSeen } from '../groups-seen.ts';
import type { Molecule } from './molecules.ts';
import { MOLECULES } from './molecules.ts';
import type { Distortion } from './simulate.ts';
import { simulated } from './simulate.ts';

/** A good modern record: for scenarios about chemistry, not about paper. */
export const CLEAN: Omit<Distortion, 'state'> = {
  seed: 1,
  strength: 0.9,
  noise: 0.001,
  slope: 0,
  offset: 0.02,
  shift_percm: 0,
  ceiling: 3,
  grid: 'wavenumber',
  step_percm: 2,
  water: 0,
};

export function moleculeNamed(name: string): Molecule {
  const found = MOLECULES.find((one) => one.name === name);
  if (found === undefined) throw new Error(`no molecule ${name}`);
  return found;
}

export const elementsIn = ({ elements }: Molecule): string[] =>
  elements.match(/[A-Z][a-z]?/g) ?? [];

export const traceOf = (
  name: string,
  state: SampleState,
  distortion: Partial<Distortion> = {},
): InfraredSpectrum => simulated(moleculeNamed(name), { ...CLEAN, state, ...distortion });

/** The absorbances of two spectra on one grid, added with weights. */
export function mixed(a: InfraredSpectrum, share: number, b: InfraredSpectrum): InfraredSpectrum {
  return {
    ...a,
    absorbance: a.absorbance.map((y, i) => (1 - share) * y + share * b.absorbance[i]!),
  };
}

export function judgementOf(
  spectrum: InfraredSpectrum,
  group: JudgedGroup,
  known: Known = {},
): GroupJudgement {
  return groupsSeen(spectrum, known).find((one) => one.group === group)!;
}
