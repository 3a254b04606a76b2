import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { printHill } from './hill.ts';
import { readReactionSmiles } from './reaction-smiles.ts';
import { looksLikeSmiles, readSmiles } from './smiles.ts';

const FUZZ_RUNS = Number(process.env.FUZZ_RUNS ?? 5000);

function hill(text: string): string {
  const reading = readSmiles(text);
  return reading.ok ? printHill(reading.composition) : `✗ ${reading.column} ${reading.message}`;
}

describe('compositions', () => {
  test.each([
    ['O', 'H2O'],
    ['CCO', 'C2H6O'],
    ['CC(=O)Oc1ccccc1C(=O)O', 'C9H8O4'],
    ['Cn1cnc2c1c(=O)n(C)c(=O)n2C', 'C8H10N4O2'],
    ['N[C@@H](C)C(=O)O', 'C3H7NO2'],
    ['F/C=C/F', 'C2H2F2'],
    ['C1CC2CC1C=C2', 'C7H10'],
    ['C%10CCCC%10', 'C5H10'],
    ['C1.C1', 'C2H6'],
    ['[13CH4]', 'CH4'],
    ['[2H]OC', 'CH3DO'],
    ['[3H]C', 'CH3T'],
    ['[H][H]', 'H2'],
    ['[H+]', 'H^+'],
    ['[Fe++]', 'Fe^2+'],
    ['[CH3:1][OH:2]', 'CH4O'],
    ['OS(=O)(=O)O', 'H2O4S'],
    ['CP(=O)(O)O', 'CH5O3P'],
    ['OCl(=O)(=O)=O', 'ClHO4'],
    ['[O-][N+](=O)c1ccccc1', 'C6H5NO2'],
    ['CN(=O)=O', 'CH3NO2'],
    // Aromatic atoms and their hydrogens.
    ['c1ccccc1', 'C6H6'],
    ['n1ccccc1', 'C5H5N'],
    ['[nH]1cccc1', 'C4H5N'],
    ['Cn1cccc1', 'C5H7N'],
    ['c1ccoc1', 'C4H4O'],
    ['c1ccsc1', 'C4H4S'],
    ['c1cc[se]c1', 'C4H4Se'],
    ['c1ccc2[nH]ccc2c1', 'C8H7N'],
    ['c1cc[nH+]cc1', 'C5H6N^+'],
    ['[cH-]1cccc1', 'C5H5^-'],
    ['c1cc[o+]cc1', 'C5H5O^+'],
    ['O=c1cc[nH]cc1', 'C5H5NO'],
    ['c1ccccc1c1ccccc1', 'C12H10'],
    ['b1ccccc1', 'C5H5B'],
    ['p1ccccc1', 'C5H5P'],
  ])('%s is %s', (smiles, expected) => {
    expect(hill(smiles)).toBe(expected);
  });

  test('fragments are what no bond joins', () => {
    const salt = readSmiles('[Na+].[O-]C(=O)c1ccccc1.O');
    if (!salt.ok) throw new Error(salt.message);
    expect(salt.fragments.map(printHill)).toEqual(['Na^+', 'C7H5O2^-', 'H2O']);
    expect(printHill(salt.composition)).toBe('C7H7NaO3');
    expect(salt).toMatchObject({ hasMetal: true, ionic: true, atoms: 18, labelled: false });
  });

  test('labels that the composition cannot show are noted', () => {
    expect(readSmiles('[13CH4]')).toMatchObject({ labelled: true });
    expect(readSmiles('[2H]C')).toMatchObject({ labelled: false });
  });
});

describe('what is no SMILES is refused, with its place', () => {
  test.each([
    ['', 0, 'missing'],
    ['C1CC', 1, 'never closed'],
    ['C(C', 1, 'never closed'],
    ['CC)', 2, 'closes no branch'],
    ['C()C', 1, 'empty branch'],
    ['(C)C', 0, 'no atom before'],
    ['C=', 1, 'leads nowhere'],
    ['=C', 0, 'no atom before'],
    ['C==C', 2, 'Two bond signs'],
    ['C.', 1, 'nothing after'],
    ['C..C', 1, 'nothing after'],
    ['C=1CCCCC#1', 9, 'different bonds'],
    ['C11', 2, 'to itself'],
    ['C12CC12', 6, 'second bond'],
    ['C%1', 1, 'two digits'],
    ['[C', 0, 'never closed'],
    ['[Xx]', 0, 'No element'],
    ['[D]', 0, '[2H]'],
    ['C*', 1, 'any atom'],
    ['CX', 1, 'brackets'],
    ['C C', 1, 'cannot stand'],
    ['C(C)(C)(C)(C)C', 0, '5 bonds'],
    ['[CH3](C)C', 0, '5 bonds'],
    ['CN(C)(C)C', 1, '[N+]'],
    ['FC(F)=F', 6, '2 bonds'],
    ['c1ccnc1', undefined, '[nH]'],
    ['c1cccc1', undefined, 'alternating'],
    ['cc', 0, 'outside a ring'],
    ['C:C', 1, 'aromatic'],
    ['c1cccc1c1cccc1', undefined, 'alternating'],
  ])('%s', (smiles, column, message) => {
    const reading = readSmiles(smiles);
    if (reading.ok) throw new Error(`read as ${printHill(reading.composition)}`);
    expect(reading.message).toContain(message);
    // Which atom of a ring is left over is not for the test to say.
    if (column !== undefined) expect(reading.column).toBe(column);
  });

  test('depth is no danger', () => {
    expect(readSmiles('C('.repeat(1500) + 'C' + ')'.repeat(1500)).ok).toBe(false);
    expect(readSmiles('C'.repeat(5000))).toMatchObject({ ok: true, atoms: 15002 });
    expect(readSmiles('C'.repeat(5001)).ok).toBe(false);
  });
});

test.each([
  ['CCO', true],
  ['C=O', true],
  ['c1ccccc1', true],
  ['[Na+].[Cl-]', true],
  ['OCC', true],
  ['C1CC1', true],
  ['CO', false],
  ['NO', false],
  ['CCl4', false],
  ['[O]', false],
  ['H2O', false],
  ['NaCl', false],
  ['Ca(OH)2', false],
  ['CuSO4.5H2O', false],
  ['[Fe(CN)6]4-', false],
  ['Sn', false],
  ['water', false],
  ['ice', false],
  ['acetic acid', false],
])('whether %s is meant as SMILES: %s', (text, expected) => {
  expect(looksLikeSmiles(text)).toBe(expected);
});

describe('reactions', () => {
  test('sides are divided into substances, ions kept together', () => {
    expect(readReactionSmiles('CC(C)=O.[Na+].[BH4-]>CO.O>CC(C)O')).toEqual({
      ok: true,
      reactants: ['CC(C)=O', '[Na+].[BH4-]'],
      agents: ['CO', 'O'],
      products: ['CC(C)O'],
    });
    expect(readReactionSmiles('[K+].[K+].[O-]C([O-])=O.CI>>CC')).toMatchObject({
      reactants: ['[K+].[K+].[O-]C([O-])=O', 'CI'],
      agents: [],
    });
    expect(readReactionSmiles('[H+].CC#N>>CC')).toMatchObject({ reactants: ['[H+]', 'CC#N'] });
  });

  test.each([
    ['CCO', 0],
    ['>>C', 0],
    ['C.C1>>C', 3],
    ['C>>CX', 4],
  ])('%s is refused', (text, column) => {
    expect(readReactionSmiles(text)).toMatchObject({ ok: false, column });
  });
});

test('no text makes the readers throw or hang', () => {
  const piece = fc.oneof(
    fc.constantFrom(
      'C',
      'c1ccccc1',
      'N',
      'n',
      'O',
      'Cl',
      '[nH]',
      '[Na+]',
      '(',
      ')',
      '=',
      '#',
      '1',
      '2',
      '%12',
    ),
    fc.constantFrom(...Array.from('[]().%:/\\@+-*>$cnospbBCNOPSFI0123456789H')),
    fc.string({ maxLength: 2, unit: 'binary' }),
  );
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 30 }), (pieces) => {
      const text = pieces.join('');
      looksLikeSmiles(text);
      readReactionSmiles(text);
      const reading = readSmiles(text);
      return reading.ok || (reading.column >= 0 && reading.column <= text.length);
    }),
    { numRuns: FUZZ_RUNS },
  );
});
