import { describe, expect, test } from 'vitest';
import type { Subject } from '../subject.ts';
import { judgeMass } from './judge.ts';
import type { MassEntered } from './schema.ts';
import { entered, subject } from './testing.ts';

function find(of: MassEntered, product: Subject, id: string, others: readonly Subject[] = []) {
  return judgeMass(of, { product, others }).statements.find((one) => one.id === id);
}

const ASPIRIN = subject('aspirin', 'CC(=O)Oc1ccccc1C(=O)O');
const ACCURATE = { massU_ppm: 3 };

describe('the ion of the molecule', () => {
  test('among heavier peaks it may be a fragment', () => {
    const peaks = [
      [108, 12],
      [79, 20],
      [105, 60],
      [212, 100],
    ] as const;
    const said = find(entered('EI', peaks), subject('benzyl alcohol', 'OCc1ccccc1'), 'mass-ion');
    expect(said).toMatchObject({ agreement: 'cannotTell' });
    expect(said?.says).toMatch(/m\/z 212 is too heavy/);
  });

  test.each([
    ['a hydrocarbon', subject('biphenyl', 'c1ccc(cc1)-c1ccccc1'), 'weak'],
    ['an amine', subject('N-benzylaniline', 'C(Nc1ccccc1)c1ccccc1'), 'moderate'],
  ] as const)('that %s shows none in a spray says what it can', (_, product, weight) => {
    const said = find(entered('ESI+', [[149.02, 100]]), product, 'mass-ion');
    expect(said).toMatchObject({ agreement: 'disagrees', weight });
  });

  test.each<[string, number, number, string, string]>([
    ['right to 3 ppm', 181.0498, 3, 'agrees', 'strong'],
    // [M+H]+ of C9H8O4 is 181.0495
    ['30 ppm off', 181.055, 3, 'disagrees', 'moderate'],
    ['good to 500 ppm only', 181.1, 500, 'agrees', 'moderate'],
  ])('an accurate mass, %s', (_, mz, massU_ppm, agreement, weight) => {
    const said = find(entered('ESI+', [[mz, 100]], { massU_ppm }), ASPIRIN, 'mass-ion');
    expect(said).toMatchObject({ agreement, weight });
  });
});

test('isotope peaks that nobody wrote down agree with nothing', () => {
  const said = find(entered('ESI+', [[181.0495, 100]], ACCURATE), ASPIRIN, 'mass-isotopes');
  expect(said?.agreement).toBe('cannotTell');
});

test('that no ion of the starting material is seen proves nothing', () => {
  const start = subject('cyclohexane', 'C1CCCCC1', 'startingMaterial');
  const of = entered('ESI+', [[181.0495, 100]], ACCURATE);
  expect(find(of, ASPIRIN, 'mass-starting-material-1', [start])?.agreement).toBe('cannotTell');
});

test('a peak that is not in the list is not shown as a figure', () => {
  const chloroform = [
    [83, 100],
    [85, 64],
    [118, 3],
    [120, 3],
  ] as const;
  const said = find(entered('EI', chloroform), subject('chloroform', 'ClC(Cl)Cl'), 'mass-isotopes');
  expect(said?.measured).toMatch(/M \+ 4: not written down/);
});
