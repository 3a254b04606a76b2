import { describe, expect, test } from 'vitest';
import { compositionOf, sameComposition, scaleComposition } from './composition.ts';
import { elementOf, elements, symbolOf } from './element.ts';
import { readFormula } from './formula.ts';
import { molarMass } from './molar-mass.ts';

function massOf(text: string): ReturnType<typeof molarMass> {
  const reading = readFormula(text);
  if (!reading.ok) throw new Error(reading.message);
  return molarMass(reading.composition);
}

describe('weights', () => {
  test('118 elements, and D and T', () => {
    expect(elements().size).toBe(120);
    expect(symbolOf(1)).toBe('H');
    expect(symbolOf(118)).toBe('Og');
  });

  test('abridged where no newer value has been published', () => {
    expect(elementOf('H')?.weight).toBe(1.008);
    expect(elementOf('Cl')?.weight).toBe(35.45);
    expect(elementOf('Zr')?.weight).toBe(91.222);
    expect(elementOf('Gd')?.weight).toBe(157.249);
    expect(elementOf('Lu')?.weight).toBe(174.96669);
    expect(elementOf('Tc')?.weight).toBeUndefined();
  });

  test('the uncertainty covers the interval and the rounding of the weight', () => {
    // Hydrogen: half-width 0.000135 over the root of 3, and 1.0080 against 1.007975.
    expect(elementOf('H')?.u).toBeCloseTo(Math.hypot(0.0000779, 0.000025), 6);
    for (const element of elements().values())
      if (element.weight !== undefined) expect(element.u).toBeGreaterThan(0);
  });

  test('metals are told from the rest', () => {
    for (const symbol of ['Na', 'Fe', 'Pb', 'Al', 'Sn', 'U'])
      expect(elementOf(symbol)?.isMetal).toBe(true);
    for (const symbol of ['H', 'C', 'B', 'Si', 'I', 'Xe', 'D'])
      expect(elementOf(symbol)?.isMetal).toBe(false);
  });
});

test('identical atoms add linearly, different elements in quadrature', () => {
  const [c, h] = [elementOf('C')!.u!, elementOf('H')!.u!];
  expect(massOf('C6H6').u_g_mol).toBeCloseTo(Math.hypot(6 * c, 6 * h), 12);
  expect(massOf('C6H6').parts).toHaveLength(2);
});

test('no partial sums', () => {
  const mass = massOf('Tc2O7');
  expect(mass.value_g_mol).toBeNaN();
  expect(mass.problem).toContain('technetium');
});

test('a deuterated solvent is heavier', () => {
  expect(massOf('CDCl3').value_g_mol - massOf('CHCl3').value_g_mol).toBeCloseTo(1.0061, 4);
});

test('dust of arithmetic is no matter', () => {
  const c = compositionOf([
    ['O', 0.1],
    ['O', 0.2],
    ['H', 1],
    ['H', -1],
  ]);
  expect(sameComposition(c, compositionOf([['O', 0.3]]))).toBe(true);
  expect(scaleComposition(c, 10).counts.get('O')).toBe(3);
});
