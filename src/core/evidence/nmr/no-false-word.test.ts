import { describe, expect, test } from 'vitest';
import type { Statement } from '../statement.ts';
import type { Subject } from '../subject.ts';
import { judgeNmr } from './judge.ts';
import type { NmrEntered, NmrSignal } from './schema.ts';
import { spectrum, subject } from './testing.ts';
import type { Row } from './testing.ts';

const judged = (entered: NmrEntered, product: Subject) =>
  judgeNmr(entered, { product, others: [] });

function find(entered: NmrEntered, product: Subject, id: string): Statement | undefined {
  return judged(entered, product).statements.find((one) => one.id === id);
}

const structure = (rows: readonly Row[], product: Subject, more: Partial<NmrEntered> = {}) =>
  find(spectrum(rows, more), product, 'nmr-structure')!;

/** Signals as taught (rounded; from memory). */
describe('what a spectrum cannot say', () => {
  test.each<[string, Subject, readonly Row[], RegExp]>([
    [
      'a phenyl singlet at low field, taken for chloroform',
      subject('ethylbenzene', 'CCc1ccccc1'),
      [
        [1.24, 3, 't'],
        [2.65, 2, 'q'],
        [7.26, 5, 's'],
      ],
      /may lie under 7\.26/,
    ],
    [
      'rotamers of an amide',
      subject('N,N-diethyl-3-methylbenzamide', 'CCN(CC)C(=O)c1cccc(C)c1'),
      [
        [1.1, 3, 'br s'],
        [1.23, 3, 'br s'],
        [2.36, 3, 's'],
        [3.25, 2, 'br s'],
        [3.53, 2, 'br s'],
        [7.13, 2, 'm'],
        [7.2, 1, 'd'],
        [7.27, 1, 't'],
      ],
      /Rotamers/,
    ],
    [
      'keto and enol',
      subject('pentane-2,4-dione', 'CC(=O)CC(C)=O'),
      [
        [2.05, 5, 's'],
        [2.24, 1.1, 's'],
        [3.6, 0.35, 's'],
        [5.5, 0.85, 's'],
        [15.5, 0.8, 'br s'],
      ],
      /enol/,
    ],
  ])('%s: no word against the product, and no purity', (_, product, rows, says) => {
    const { statements } = judged(spectrum(rows), product);
    const first = statements.find(({ id }) => id === 'nmr-structure')!;
    expect(first.agreement).toBe('cannotTell');
    expect(first.says).toMatch(says);
    for (const { purity, agreement } of statements) {
      expect(purity).toBeUndefined();
      expect(agreement).not.toBe('disagrees');
    }
  });

  test('signals of which only some were written down', () => {
    const signals: readonly NmrSignal[] = [
      { shift_ppm: 4.65, integral: 2, assignment: { to: 'product', hydrogens: 2 } },
      { shift_ppm: 10, integral: 0.1, assignment: { to: 'startingMaterial', hydrogens: 1 } },
    ];
    const benzylAlcohol = subject('benzyl alcohol', 'OCc1ccccc1');
    expect(find(spectrum([], {}, signals), benzylAlcohol, 'nmr-structure')?.agreement).toBe(
      'cannotTell',
    );
  });
});

test('a tube of ethanol is not the product, though its O–H lies where the product may have a signal', () => {
  const ethanol: readonly Row[] = [
    [3.69, 2, 'q'],
    [1.81, 1, 's'],
    [1.22, 3, 't'],
  ];
  const cyclohexanone = subject('cyclohexanone', 'O=C1CCCCC1');
  const { agreement, says } = structure(ethanol, cyclohexanone);
  expect(agreement).toBe('cannotTell');
  expect(says).toMatch(/Most of the area is of ethanol/);
  expect(find(spectrum(ethanol), cyclohexanone, 'nmr-composition')).toBeUndefined();
});

test('an aldehyde is not taken for its alcohol: no CH₂ lies among the aromatic signals', () => {
  const benzaldehyde: readonly Row[] = [
    [10.0, 1, 's'],
    [7.5, 3, 'm'],
    [7.88, 2, 'd'],
  ];
  expect(structure(benzaldehyde, subject('benzyl alcohol', 'OCc1ccccc1')).agreement).toBe(
    'disagrees',
  );
});

describe('a purity against an internal standard', () => {
  const maleic = {
    substance: 'maleic acid',
    smiles: 'OC(=O)/C=C\\C(=O)O',
    mass_mg: 10,
    purity_percent: 99.9,
    hydrogens: 2,
    shift_ppm: 6.29,
  };
  const cinnamate: readonly Row[] = [
    [6.27, 1, 'd'],
    [6.31, 2, 's'],
    [3.75, 3, 's'],
    [7.3, 2, 'd'],
    [7.5, 2, 'm'],
    [7.4, 1, 'm'],
    [7.68, 1, 'd'],
  ];
  const more = { standard: maleic, sampleMass_mg: 15 };

  test('is not worked out where a signal of the product stands beside that of the standard', () => {
    const product = subject('methyl cinnamate', 'COC(=O)C=Cc1ccccc1');
    const found = judged(spectrum(cinnamate, more), product);
    expect(found.diagnostics.map(({ code }) => code)).toContain('nmr-standard-crowded');
    expect(found.statements.some(({ purity }) => purity !== undefined)).toBe(false);
    expect(structure(cinnamate, product, more).agreement).not.toBe('disagrees');
  });

  test('carries no figure where the structure was not found', () => {
    const rows: readonly Row[] = [
      [2.1, 3, 's'],
      [5.11, 2, 's'],
      [7.35, 8, 'm'],
      [6.29, 1.7, 's'],
    ];
    const product = subject('benzyl acetate', 'CC(=O)OCc1ccccc1');
    const said = find(spectrum(rows, more), product, 'nmr-purity')!;
    expect(said).toMatchObject({ weight: 'weak' });
    expect(said.purity).toBeUndefined();
  });
});

test('an OH that is not seen is not called found', () => {
  const rows: readonly Row[] = [
    [4.65, 2, 's'],
    [7.33, 5, 'm'],
  ];
  const said = structure(rows, subject('benzyl alcohol', 'OCc1ccccc1'));
  expect(said.agreement).toBe('agrees');
  expect(said.says).toMatch(/benzyl alcohol but OH, which need not show, is found/);
});

test('one singlet makes no strong case', () => {
  const said = structure([[5.3, 2, 's']], subject('dichloromethane', 'ClCCl'));
  expect(said).toMatchObject({ agreement: 'agrees', weight: 'moderate' });
});
