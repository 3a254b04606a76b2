import { describe, expect, it } from 'vitest';
import type { SampleState } from '../infrared.ts';
import type { JudgedGroup } from './group-judgement.ts';
import { groupsSeen } from './groups-seen.ts';
import type { Judged } from './testing/confusion.ts';
import { confusionOf } from './testing/confusion.ts';
import { MOLECULES } from './testing/molecules.ts';
import { elementsIn } from './testing/scenario.ts';
import { simulated, usualDistortion } from './testing/simulate.ts';

/**
 * Simulated records of real molecules, with the noise, slope, saturation, moisture and errors of
 * position of old collections. It shows robustness and calibration, not accuracy on real samples.
 */
const STATES: Readonly<Record<'liquid' | 'solid' | 'gas', readonly SampleState[]>> = {
  liquid: ['film', 'solution'],
  solid: ['disc', 'mull'],
  gas: ['gas'],
};
const SEEDS = [1, 2, 3, 4];

function judgedAll(): Judged[] {
  return MOLECULES.flatMap((molecule) =>
    STATES[molecule.form].flatMap((state) =>
      SEEDS.flatMap((seed) =>
        groupsSeen(simulated(molecule, usualDistortion(state, seed)), {
          elements: elementsIn(molecule),
        }).map((judgement) => ({
          file: molecule.name,
          state,
          truth: molecule.groups.split(' ').includes(judgement.group),
          judgement,
        })),
      ),
    ),
  );
}

/** Floors: sensitivity, specificity, and the most that may be left untold. */
const FLOORS: readonly [JudgedGroup, SampleState, number, number, number][] = [
  ['carbonyl', 'film', 0.985, 0.985, 0.1],
  ['carbonyl', 'solution', 0.985, 0.985, 0.1],
  ['carbonyl', 'disc', 0.96, 0.96, 0.167],
  ['carbonyl', 'mull', 0.96, 0.96, 0.167],
  ['carbonyl', 'gas', 0.99, 0.99, 0.1],
  ['oh', 'film', 0.97, 0.97, 0.1],
  ['oh', 'solution', 0.97, 0.97, 0.1],
  ['oh', 'disc', 0.9, 0.93, 0.25],
  ['oh', 'mull', 0.9, 0.93, 0.167],
  ['oh', 'gas', 0.95, 0.99, 0.167],
  ['acid', 'film', 0.95, 0.95, 0.1],
  ['acid', 'disc', 0.95, 0.95, 0.1],
  ['acid', 'mull', 0.95, 0.95, 0.1],
  ['nitro', 'film', 0.95, 0.95, 0.1],
  ['nitro', 'disc', 0.95, 0.95, 0.1],
  ['nitrile', 'film', 0.9, 0.985, 0.1],
  ['nitrile', 'disc', 0.9, 0.985, 0.1],
];

describe('simulated records', () => {
  const rows = confusionOf(judgedAll());

  it.each(FLOORS)('%s in %s', (group, state, sensitivity, specificity, untold) => {
    const row = rows.find((one) => one.group === group && one.state === state)!;
    expect(row.sensitivity, row.wrong.join('; ')).toBeGreaterThanOrEqual(sensitivity);
    expect(row.specificity, row.wrong.join('; ')).toBeGreaterThanOrEqual(specificity);
    expect(row.cannotTell).toBeLessThanOrEqual(untold);
  });

  it('high and low probabilities of O–H and C=O hold', () => {
    for (const row of rows.filter(({ group }) => group === 'oh' || group === 'carbonyl')) {
      const [low, , , , high] = row.bins;
      expect(Math.abs(low!.mean - low!.share)).toBeLessThan(0.08);
      expect(Math.abs(high!.mean - high!.share)).toBeLessThan(0.08);
      expect(row.brier).toBeLessThan(0.09);
    }
  });
});
