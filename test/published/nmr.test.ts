import { Molecule } from 'openchemlib';
import { describe, expect, test } from 'vitest';
import published from './nmr.json' with { type: 'json' };
import { hydrogenEnvironments } from '../../src/core/chemistry/environments.ts';
import { skeletonOf } from '../../src/core/chemistry/skeleton.ts';
import { symmetryClasses } from '../../src/core/chemistry/symmetry.ts';
import { areaPerHydrogen, sharesOf } from '../../src/core/evidence/nmr/amounts.ts';
import { expectationsOf } from '../../src/core/evidence/nmr/match-signals.ts';
import { readMultiplicity } from '../../src/core/evidence/nmr/multiplicity.ts';
import { simplestRatio } from '../../src/core/evidence/nmr/proton-counts.ts';
import { residualRows } from '../../src/core/evidence/nmr/residuals.ts';
import type { NmrSolvent } from '../../src/core/evidence/nmr/solvents.ts';

const environmentsOf = (smiles: string) => {
  const reading = hydrogenEnvironments(smiles);
  if (!reading.ok) throw new Error(reading.message);
  return reading;
};

describe('hydrogen environments', () => {
  test.each(published.environments)('$name has $count ($source)', ({ smiles, count }) => {
    expect(environmentsOf(smiles).list).toHaveLength(count);
  });

  test.each(published.patterns)('$name: hydrogens and patterns ($source)', ({ smiles, list }) => {
    const environments = environmentsOf(smiles);
    const expected = expectationsOf(environments);
    const left = environments.list.map((env, i) => ({ env, pattern: expected[i]!.pattern }));
    expect(left).toHaveLength(list.length);
    for (const [label, hydrogens, printed] of list) {
      const at = left.findIndex(({ env, pattern }) => {
        const own = readMultiplicity(pattern)?.couplings ?? [];
        const lines = own.reduce((sum, n) => sum + n, 1);
        // A printed "m" stands for five lines or more.
        const same = pattern === printed || (printed === 'm' && lines >= 5);
        return env.label === label && env.hydrogens === hydrogens && same;
      });
      expect(at, `${label}, ${printed}`).toBeGreaterThanOrEqual(0);
      left.splice(at, 1);
    }
  });

  test('classes of atoms are those of another toolkit', () => {
    let compared = 0;
    for (const { smiles, name } of [...published.environments, ...published.patterns]) {
      const molecule = Molecule.fromSmiles(smiles);
      molecule.ensureHelperArrays(Molecule.cHelperSymmetrySimple);
      const skeleton = skeletonOf(smiles);
      const own = symmetryClasses(skeleton);
      expect(molecule.getAllAtoms(), name).toBe(own.length);
      own.forEach((mine, i) =>
        own.forEach((other, j) => {
          if (j <= i || skeleton.atoms[i]!.symbol !== skeleton.atoms[j]!.symbol) return;
          compared++;
          expect(mine === other, `${name}: atoms ${i} and ${j}`).toBe(
            molecule.getSymmetryRank(i) === molecule.getSymmetryRank(j),
          );
        }),
      );
    }
    expect(compared).toBeGreaterThan(500);
  });
});

test(`integrals as whole numbers (${published.ratio.source})`, () => {
  const { integrals, counts } = published.ratio;
  expect(simplestRatio(integrals)?.counts).toEqual(counts);
});

test(`mass shares of a crude product (${published.crude.source})`, () => {
  const { product, solvent, crude_g, pure_g, theory_g, yield_percent } = published.crude;
  const amount = (id: string, { integral, hydrogens }: { integral: number; hydrogens: number }) =>
    areaPerHydrogen([{ id, integral, hydrogens, u: 0 }])!;
  const [own, other] = sharesOf([
    { name: 'product', amount: amount('a', product), molarMass_g_mol: product.molarMass },
    { name: solvent.name, amount: amount('b', solvent), molarMass_g_mol: solvent.molarMass },
  ]);
  expect(Math.round(100 * own!.mole.value)).toBe(product.mole_percent);
  expect(Math.round(100 * own!.mass.value)).toBe(product.mass_percent);
  expect(Math.round(100 * other!.mole.value)).toBe(solvent.mole_percent);
  expect(Math.round(100 * other!.mass.value)).toBe(solvent.mass_percent);
  // Printed from the rounded 82 %: 1.01 g and 49 %.
  expect(crude_g * own!.mass.value).toBeCloseTo(pure_g, 1);
  expect(Math.round((100 * crude_g * own!.mass.value) / theory_g)).toBe(yield_percent);
});

describe(`shifts of usual contaminants (${published.shifts.source})`, () => {
  test.each(published.shifts.rows)('%s: %s %s %f ppm', (solvent, substance, group, shift) => {
    const row = residualRows(solvent as NmrSolvent).find(
      (one) => one.substance === substance && one.group === group,
    );
    expect(row?.shift_ppm).toBe(shift);
  });
});
