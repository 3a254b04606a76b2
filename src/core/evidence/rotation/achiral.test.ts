import { expect, test } from 'vitest';
import { makeSubstance } from '../../chemistry/substance.ts';
import { drawnAchiral } from './achiral.ts';
import { judgeRotation } from './judge.ts';

test.each([
  ['O=C1CCCCC1', true],
  ['OC1CCC(C)CC1', true],
  ['CC(O)c1ccccc1', false],
  ['CC(C)C1CCC(C)CC1O', false],
  ['C[C@H](O)C(=O)O', false],
  [undefined, false],
  ['not SMILES', false],
])('%s without a stereocentre: %s', (smiles, expected) => {
  expect(drawnAchiral(smiles)).toBe(expected);
});

test.each([
  [0.6, 'disagrees', /cannot rotate: something else/],
  [0.005, 'agrees', /does not rotate/],
])('cyclohexanone that turns by %s°: %s', (observed_deg, agreement, says) => {
  const made = makeSubstance({ name: 'cyclohexanone', smiles: 'O=C1CCCCC1' });
  if (!made.ok) throw new Error(made.message);
  const { statements } = judgeRotation(
    {
      technique: 'rotation',
      observed_deg,
      length_dm: 1,
      sample: { kind: 'solution', concentration: 10, unit: 'g/100 mL' },
      T_C: 20,
    },
    { product: { role: 'product', substance: made.substance, literature: {} }, others: [] },
  );
  expect(statements[0]).toMatchObject({ about: 'contaminant', agreement });
  expect(statements[0]!.says).toMatch(says);
});
