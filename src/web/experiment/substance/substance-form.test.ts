import { describe, expect, it } from 'vitest';
import { substanceOf, weighed } from './substance-form.ts';

const fields = {
  name: 'odd ester',
  smiles: 'CCOC(C)=O',
  state: 'liquid',
  density: '0,90',
} as const;

describe('a substance from its fields', () => {
  it('takes what is there, a decimal comma too', () => {
    expect(substanceOf(fields)).toEqual({
      ok: true,
      substance: { name: 'odd ester', smiles: 'CCOC(C)=O', state: 'liquid', density_g_mL: 0.9 },
    });
    expect(substanceOf({ name: ' salt ', smiles: '', state: '', density: '' })).toEqual({
      ok: true,
      substance: { name: 'salt' },
    });
    expect(substanceOf({ ...fields, density: '0.9 g/mL' })).toMatchObject({
      substance: { density_g_mL: 0.9 },
    });
  });

  it.each([
    [{ ...fields, name: ' ' }, /name/],
    [{ ...fields, density: 'light' }, /density/],
    [{ ...fields, density: '-1' }, /density/],
  ])('says what is missing', (wrong, why) => {
    const made = substanceOf(wrong);
    expect(made.ok ? '' : made.why).toMatch(why);
  });

  it('weighs a structure as it is written', () => {
    expect(weighed('CCOC(C)=O')).toMatchObject({ formula: 'C4H8O2' });
    expect(weighed('CCOC(C)=O')?.molarMass_g_mol).toBeCloseTo(88.1, 1);
    expect(weighed('CCOC(C')).toBeUndefined();
    expect(weighed('')).toBeUndefined();
  });
});
