import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { compositionOf, sameComposition } from './composition.ts';
import { elements } from './element.ts';
import { readFormula } from './formula.ts';
import { formulaGroups } from './formula-symbol.ts';
import { printHill } from './hill.ts';

const FUZZ_RUNS = Number(process.env.FUZZ_RUNS ?? 5000);

function hill(text: string): string {
  const reading = readFormula(text);
  return reading.ok ? printHill(reading.composition) : `✗ ${reading.column} ${reading.message}`;
}

describe('formulas are read', () => {
  test.each([
    // Atoms, brackets and counts.
    ['H2SO4', 'H2O4S'],
    ['  NaCl ', 'ClNa'],
    ['Ca3(PO4)2', 'Ca3O8P2'],
    ['K4[Fe(CN)6]', 'C6FeK4N6'],
    ['{[Co(NH3)6]}Cl3', 'Cl3CoH18N6'],
    ['H₂SO₄', 'H2O4S'],
    ['CH3(CH2)16COOH', 'C18H36O2'],
    ['Fe0.95O', 'Fe(0.95)O'],
    ['CaHO(4.5)S', 'CaHO(4.5)S'],
    ['NaB(OH)4', 'BH4NaO4'],
    // Hydrates and adducts.
    ['CuSO4·5H2O', 'CuH10O9S'],
    ['CuSO4 · 5 H2O', 'CuH10O9S'],
    ['CuSO4.5H2O', 'CuH10O9S'],
    ['CuSO4*5H2O', 'CuH10O9S'],
    ['CuSO4•5H2O', 'CuH10O9S'],
    ['CaSO4·½H2O', 'CaHO(4.5)S'],
    ['CaSO4·0.5H2O', 'CaHO(4.5)S'],
    ['CaSO4.0.5H2O', 'CaHO(4.5)S'],
    ['CaSO4·1/2H2O', 'CaHO(4.5)S'],
    ['K2CO3·1½H2O', 'CH3K2O(4.5)'],
    ['3CdSO4·8H2O', 'Cd3H16O20S3'],
    ['NH4Al(SO4)2·12H2O', 'AlH28NO20S2'],
    ['BH3·OC4H8', 'C4H11BO'],
    // Deuterium, tritium, the electron, the reagent atoms of organic equations.
    ['D2O', 'D2O'],
    ['CDCl3', 'CDCl3'],
    ['(CD3)2SO', 'C2D6OS'],
    ['T2O', 'OT2'],
    ['e-', 'e^-'],
    ['e⁻', 'e^-'],
    ['e^-', 'e^-'],
    ['[O]', 'O'],
    ['[H]', 'H'],
    // Groups that are no element.
    ['MeOH', 'CH4O'],
    ['EtOAt', 'C2H5AtO'],
    ['i-PrOH', 'C3H8O'],
    ['tBuOH', 'C4H10O'],
    ['PhCH2Br', 'C7H7Br'],
    ['Boc2O', 'C10H18O5'],
    ['BnOH', 'C7H8O'],
  ])('%s is %s', (text, expected) => {
    expect(hill(text)).toBe(expected);
  });

  test.each([
    ['SO4^2-', 'O4S^2-'],
    ['SO4^{2-}', 'O4S^2-'],
    ['SO₄²⁻', 'O4S^2-'],
    ['SO4²⁻', 'O4S^2-'],
    ['SO4 2-', 'O4S^2-'],
    ['SO4(2-)', 'O4S^2-'],
    ['SO4--', 'O4S^2-'],
    ['SO4-2', 'O4S^2-'],
    ['SO4−2', 'O4S^2-'],
    ['SO42-', 'O4S^2-'],
    ['Cu2+', 'Cu^2+'],
    ['Fe3+', 'Fe^3+'],
    ['Fe^3+', 'Fe^3+'],
    ['Fe+3', 'Fe^3+'],
    ['Fe+++', 'Fe^3+'],
    ['NH4+', 'H4N^+'],
    ['H3O+', 'H3O^+'],
    ['H+', 'H^+'],
    ['OH-', 'HO^-'],
    ['MnO4-', 'MnO4^-'],
    ['HCO3-', 'CHO3^-'],
    ['CH3COO-', 'C2H3O2^-'],
    ['C10H15+', 'C10H15^+'],
    ['Cr2O72-', 'Cr2O7^2-'],
    ['PO43-', 'O4P^3-'],
    ['[Fe(CN)6]4-', 'C6FeN6^4-'],
    ['Fe(CN)63-', 'C6FeN6^3-'],
    ['[Ag(NH3)2]+', 'AgH6N2^+'],
    ['Ag(NH3)2+', 'AgH6N2^+'],
    ['Hg22+', 'Hg2^2+'],
    ['Hg2^2+', 'Hg2^2+'],
    ['I3-', 'I3^-'],
    ['N3^-', 'N3^-'],
    ['S2-', 'S^2-'],
    ['[Na+]', 'Na^+'],
    ['[Cu2+]', 'Cu^2+'],
  ])('the charge of %s is read: %s', (text, expected) => {
    expect(hill(text)).toBe(expected);
  });

  test.each([
    ['SO42-', 'SO4'],
    ['N3-', 'azide'],
    ['O2-', 'superoxide'],
    ['Ac2O3', 'acetyl'],
    ['PrCl3', 'propyl'],
    ['Ts', 'tosyl'],
  ])('a second meaning of %s is said', (text) => {
    const reading = readFormula(text);
    expect(reading.ok && reading.assumed).toBeTruthy();
  });

  test.each([
    ['Zn(OAc)2', 'Zn(C2H3O2)2'],
    ['AcOH', 'C2H4O2'],
    ['NaOAc', 'C2H3NaO2'],
    ['AcOEt', 'C4H8O2'],
    ['PhNHAc', 'C8H9NO'],
    ['Al(OPr)3', 'Al(C3H7O)3'],
    ['TsOH', 'C7H8O3S'],
    ['Ac(OH)3', 'Ac(OH)3'],
    ['AcOCl', 'AcOCl'],
    ['Pr6O11', 'Pr6O11'],
  ])('the groups of %s are told from elements', (text, plain) => {
    expect(hill(text)).toBe(hill(plain));
  });

  test.each(['H2O', 'NH4+', 'Cu2+', 'SO4^2-', '[Fe(CN)6]4-'])('%s needs no explanation', (text) => {
    const reading = readFormula(text);
    expect(reading.ok && reading.assumed).toBeUndefined();
  });
});

describe('what is no formula is refused, with its place', () => {
  test.each([
    ['', 0, 'missing'],
    ['   ', 0, 'missing'],
    ['CL2', 1, 'No element has the symbol L'],
    ['nacl', 0, 'No element has the symbol n'],
    ['H2Xx', 2, 'No element has the symbol X'],
    ['(H2O', 0, 'never closed'],
    ['H2O)', 3, 'closes no bracket'],
    ['[H2O)', 4, 'meets the ['],
    ['Na()', 2, 'Empty brackets'],
    ['2H2O', 0, 'how many'],
    ['H0', 1, 'count of 0'],
    ['H2000000', 1, '1,000,000'],
    ['(((H1000)1000)1000)', 13, '1,000,000'],
    ['Na Cl', 2, 'space'],
    ['H2O(l)', 3, 'state mark'],
    ['NaCl(aq)', 4, 'state mark'],
    ['CuSO4·xH2O', 6, 'not written'],
    ['¹³CO2', 0, 'only as a charge'],
    ['Na+Cl', 2, '+'],
    ['SO4^2-O', 3, '^'],
    ['Fe^3+^2+', 2, '^'],
    ['NaCl.', 5, 'missing'],
    ['(CuSO4·5H2O)2', 6, 'outside brackets'],
    ['[Na+]2', 4, 'inside brackets'],
    ['ethanol', 0, 'No element'],
    ['H2O!', 3, '!'],
  ])('%s', (text, column, message) => {
    const reading = readFormula(text);
    if (reading.ok) throw new Error(`read as ${printHill(reading.composition)}`);
    expect(reading.message).toContain(message);
    expect(reading.column).toBe(column);
  });

  test.each([
    ['CL2', 'Cl'],
    ['HCL', 'Cl'],
    ['nacl', 'Na'],
    ['NACL', 'Na'],
    ['ALCL3', 'Al'],
  ])('%s brings %s to mind', (text, near) => {
    const reading = readFormula(text);
    expect(!reading.ok && reading.hint).toContain(near);
  });

  test.each([
    ['deep', '('.repeat(999) + 'H' + ')'.repeat(999), 'nested'],
    ['long', 'C'.repeat(2001), '2000 characters'],
  ])('too %s', (_, text, message) => {
    const reading = readFormula(text);
    expect(!reading.ok && reading.message).toContain(message);
  });
});

const symbols = [...elements().keys()];
const count = fc.oneof(
  fc.integer({ min: 1, max: 400 }),
  fc.integer({ min: 1, max: 99 }).map((n) => n / 4),
  fc.integer({ min: 1, max: 9999 }).map((n) => n / 1000),
);

test('a printed formula is read back to the same composition', () => {
  const composition = fc
    .tuple(
      fc.uniqueArray(fc.tuple(fc.constantFrom(...symbols), count), {
        minLength: 1,
        maxLength: 8,
        selector: ([symbol]) => symbol,
      }),
      fc.integer({ min: -6, max: 6 }),
    )
    .map(([counts, charge]) => compositionOf(counts, charge));
  fc.assert(
    fc.property(composition, (c) => {
      const reading = readFormula(printHill(c));
      return reading.ok && sameComposition(reading.composition, c);
    }),
    { numRuns: FUZZ_RUNS },
  );
});

test('no text makes the reader throw or hang', () => {
  const piece = fc.oneof(
    fc.constantFrom(...symbols, ...formulaGroups().keys()),
    fc.constantFrom(...Array.from('()[]{}·.*^+-−⁺⁻₂³½/ 0123456789ex')),
    fc.string({ maxLength: 3, unit: 'binary' }),
  );
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 40 }), (pieces) => {
      const text = pieces.join('');
      const reading = readFormula(text);
      if (reading.ok) return [...reading.composition.counts.values()].every((n) => n > 0);
      return reading.column >= 0 && reading.column <= text.length && reading.message !== '';
    }),
    { numRuns: FUZZ_RUNS },
  );
});
