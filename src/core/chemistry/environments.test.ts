import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { hydrogenEnvironments } from './environments.ts';

function environmentsOf(smiles: string) {
  const reading = hydrogenEnvironments(smiles);
  if (!reading.ok) throw new Error(reading.message);
  return reading.list;
}

/** What does not depend on how the structure was written. */
const shapeOf = (smiles: string) =>
  environmentsOf(smiles)
    .map((env) => [
      env.label,
      env.hydrogens,
      env.couplings.map((c) => c.hydrogens).sort((a, b) => a - b),
      env.mayDiffer,
      env.secondOrder,
    ])
    .map((row) => JSON.stringify(row))
    .sort();

describe('one structure, written in several ways', () => {
  test.each([
    ['toluene', 'Cc1ccccc1', 'CC1=CC=CC=C1', 'c1cccc(C)c1'],
    ['naphthalene', 'c1ccc2ccccc2c1', 'C1=CC=C2C=CC=CC2=C1', 'C1=CC2=CC=CC=C2C=C1'],
    ['furan', 'c1ccoc1', 'C1=COC=C1', 'O1C=CC=C1'],
    ['pyridine', 'c1ccncc1', 'C1=CC=NC=C1', 'N1=CC=CC=C1'],
    ['ethanol', 'CCO', 'OCC', '[H]OC([H])([H])C'],
    ['menthol', 'CC(C)C1CCC(C)CC1O', 'OC1CC(C)CCC1C(C)C', 'C1(O)C(C(C)C)CCC(C1)C'],
  ])('%s', (_, first, ...others) => {
    for (const other of others) expect(shapeOf(other)).toEqual(shapeOf(first));
  });
});

describe('what stands beside the symmetry', () => {
  const flagged = (smiles: string) =>
    environmentsOf(smiles)
      .filter((env) => env.mayDiffer)
      .map((env) => env.label);
  test.each([
    ['a CH2 beside a stereocentre', 'CCC(C)O', ['CH2']],
    ['ethyl of an acetal', 'CCOC(C)OCC', ['2 × CH2']],
    ['ethyl of a malonate with two different hydrogens', 'CCOC(=O)C(C)C(=O)OCC', ['2 × CH2']],
    ['ethyl of plain malonate', 'CCOC(=O)CC(=O)OCC', []],
    ['ring CH2 of a substituted ring', 'OC1CCCCC1', ['2 × CH2', '2 × CH2', 'CH2']],
    ['ring CH2 of cyclohexanone', 'O=C1CCCCC1', []],
    ['isopropyl in valine', 'CC(C)C(N)C(=O)O', ['2 × CH3']],
  ])('%s', (_, smiles, labels) => {
    expect(flagged(smiles).sort()).toEqual([...labels].sort());
  });

  test('pairs on a para-disubstituted ring are no first-order system', () => {
    expect(environmentsOf('COc1ccc(C=O)cc1').filter((env) => env.secondOrder)).toHaveLength(2);
    expect(environmentsOf('Cc1cc(C)cc(C)c1').some((env) => env.secondOrder)).toBe(false);
  });

  test('the sides of a double bond and of an amide are told apart', () => {
    expect(environmentsOf('CC(C)=CC')).toHaveLength(4);
    expect(environmentsOf('CC(C)=C')).toHaveLength(2);
    expect(environmentsOf('CN(C)C=O')).toHaveLength(3);
    expect(environmentsOf('CN(C)C')).toHaveLength(1);
  });

  test('OH and NH exchange and do not couple', () => {
    const [methyl, methylene, hydroxyl] = environmentsOf('CCO');
    expect(hydroxyl).toMatchObject({ exchangeable: true, couplings: [] });
    expect(methylene?.couplings).toEqual([{ with: 0, hydrogens: 3 }]);
    expect(methyl?.couplings).toEqual([{ with: 1, hydrogens: 2 }]);
  });

  test('fluorine couples', () => {
    expect(environmentsOf('FCC')[0]).toMatchObject({ fluorines: 1 });
    expect(environmentsOf('FC(F)(F)CO')[0]).toMatchObject({ fluorines: 3, hydrogens: 2 });
  });
});

test('what is no structure, or too large, is refused', () => {
  expect(hydrogenEnvironments('C1CC')).toMatchObject({ ok: false });
  expect(hydrogenEnvironments('C'.repeat(300))).toMatchObject({ ok: false });
});

test('no hydrogen is lost, whatever the structure', () => {
  const piece = fc.constantFrom('C', 'CC', 'C(C)', 'C(O)', 'C(=O)', 'O', 'N', 'c1ccccc1', 'C(=C)');
  fc.assert(
    fc.property(fc.array(piece, { minLength: 1, maxLength: 8 }), (pieces) => {
      const smiles = pieces.join('').replace(/c1ccccc1/g, 'c1ccc(cc1)');
      const reading = hydrogenEnvironments(`${smiles}C`);
      fc.pre(reading.ok);
      if (!reading.ok) return;
      const total = reading.skeleton.hydrogens.reduce((sum, count) => sum + count, 0);
      expect(reading.list.reduce((sum, env) => sum + env.hydrogens, 0)).toBe(total);
      // Whoever couples is coupled to.
      reading.list.forEach((env, i) => {
        for (const coupling of env.couplings)
          expect(reading.list[coupling.with]!.couplings.some((c) => c.with === i)).toBe(true);
      });
    }),
    { numRuns: 200 },
  );
});
