import { describe, expect, test } from 'vitest';
import { hydrogenEnvironments } from '../../chemistry/environments.ts';
import { patternFits, readMultiplicity } from './multiplicity.ts';
import { surroundingsOf } from './shift-window.ts';

test.each([
  ['s', [], false],
  ['d', [1], false],
  ['quint', [4], false],
  ['sept', [6], false],
  ['septet', [6], false],
  ['dd', [1, 1], false],
  ['dt', [1, 2], false],
  ['ddt', [1, 1, 2], false],
  ['doublet of quartets', [1, 3], false],
  ['br s', [], false],
  ['bs', [], false],
  ['app t', [2], false],
  ['m', [], true],
  ['br', [], true],
])('%s', (text, couplings, multiplet) => {
  expect(readMultiplicity(text)).toMatchObject({ couplings, multiplet });
});

test.each(['', 'x', 'seven', 'dd?'])('%j is none', (text) => {
  expect(readMultiplicity(text)).toBeUndefined();
});

describe('whether a pattern can be that of an environment', () => {
  test.each([
    ['CH3 of ethanol', 'CCO', 0, 't', true],
    ['CH3 of ethanol', 'CCO', 0, 'd', false],
    ['CH3 of ethanol', 'CCO', 0, 's', false],
    ['CH2 of ethanol, slow exchange', 'CCO', 1, 'qd', true],
    ['CH2 of ethanol', 'CCO', 1, 'q', true],
    ['CH of isopropyl', 'CC(C)Br', 1, 'sept', true],
    ['CH of isopropyl', 'CC(C)Br', 1, 'q', false],
    ['middle CH2 of propyl', 'CCCBr', 1, 'sext', true],
    ['middle CH2 of propyl, two constants', 'CCCBr', 1, 'qt', true],
    ['middle CH2 of propyl', 'CCCBr', 1, 'quint', false],
    ['acetyl', 'CC(=O)OC', 0, 's', true],
    ['acetyl', 'CC(=O)OC', 0, 'm', false],
    ['ring H beside one, with a small meta coupling', 'CC(=O)Oc1ccccc1C(=O)O', 1, 'dd', true],
    ['ring H beside two', 'CC(=O)Oc1ccccc1C(=O)O', 2, 'td', true],
    ['vinyl CH of an allyl group', 'COc1ccc(CC=C)cc1', 4, 'ddt', true],
    ['CH2 that is diastereotopic', 'CCC(C)O', 1, 'm', true],
  ])('%s (%s, %i): %s %s', (_, smiles, index, text, fits) => {
    const reading = hydrogenEnvironments(smiles);
    if (!reading.ok) throw new Error(reading.message);
    const env = reading.list[index]!;
    const around = surroundingsOf(reading.skeleton, env);
    expect(patternFits(readMultiplicity(text)!, env, reading.list, around)).toBe(fits);
  });
});
