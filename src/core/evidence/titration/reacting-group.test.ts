import { describe, expect, test } from 'vitest';
import { makeSubstance } from '../../chemistry/substance.ts';
import type { Subject, SubjectRole } from '../subject.ts';
import { judgeTitration } from './judge.ts';
import { canReact } from './reacting-group.ts';
import type { TitrationEntered, TitrationKind } from './schema.ts';

function subject(name: string, smiles: string, role: SubjectRole = 'product'): Subject {
  const made = makeSubstance({ name, smiles });
  if (!made.ok) throw new Error(made.message);
  return { role, substance: made.substance, literature: {} };
}

test.each<[string, string, TitrationKind, boolean]>([
  ['benzoic acid', 'OC(=O)c1ccccc1', 'acid', true],
  ['phenol', 'Oc1ccccc1', 'acid', true],
  ['toluenesulfonic acid', 'Cc1ccc(cc1)S(=O)(=O)O', 'acid', true],
  ['phthalimide', 'O=C1NC(=O)c2ccccc12', 'acid', true],
  ['ascorbic acid', 'OCC(O)C1OC(=O)C(O)=C1O', 'acid', true],
  ['anilinium chloride', '[NH3+]c1ccccc1.[Cl-]', 'acid', true],
  ['cyclohexanol', 'OC1CCCCC1', 'acid', false],
  ['butyl acetate', 'CCCCOC(C)=O', 'acid', false],
  ['acetanilide', 'CC(=O)Nc1ccccc1', 'acid', false],
  ['aniline', 'Nc1ccccc1', 'base', true],
  ['sodium benzoate', '[Na+].[O-]C(=O)c1ccccc1', 'base', true],
  ['benzoic acid', 'OC(=O)c1ccccc1', 'base', false],
  ['butyl acetate', 'CCCCOC(C)=O', 'saponification', true],
  ['dibutyl ether', 'CCCCOCCCC', 'saponification', false],
])('%s, %s, %s: %s', (name, smiles, kind, reacts) => {
  expect(canReact(subject(name, smiles).substance, kind)).toBe(reacts);
});

describe('the acid value of an ester', () => {
  const titrated = (titre_mL: number): TitrationEntered => ({
    technique: 'titration',
    kind: 'acid',
    titrant: 'potassium hydroxide',
    strength: { by: 'given', concentration_mol_L: 0.1 },
    equivalents: 1,
    runs: [{ titre_mL, sample_g: 5 }],
  });
  const product = subject('butyl acetate', 'CCCCOC(C)=O');

  test('is an acid beside it, and no content of the ester', () => {
    const judged = judgeTitration(titrated(1.2), { product, others: [] });
    expect(judged.statements).toHaveLength(1);
    const [said] = judged.statements;
    expect(said).toMatchObject({ about: 'contaminant', agreement: 'disagrees' });
    // 0.12 mmol in 5 g × 56.106 g/mol
    expect(said!.measured).toMatch(/^1\.3\d* ± .* mg KOH\/g$/);
    expect(said!.purity).toBeUndefined();
    expect(judged.diagnostics.map(({ code }) => code)).toContain('titration-analyte-inert');
  });
});

test('an acid made from an acid: what is left of it counts, so that the content is a bound', () => {
  const entered: TitrationEntered = {
    technique: 'titration',
    kind: 'acid',
    titrant: 'sodium hydroxide',
    strength: { by: 'given', concentration_mol_L: 0.1, u_mol_L: 0.0001 },
    equivalents: 1,
    runs: [
      { titre_mL: 21.5, sample_g: 0.4 },
      { titre_mL: 21.5, sample_g: 0.4 },
    ],
  };
  const product = subject('aspirin', 'CC(=O)Oc1ccccc1C(=O)O');
  const phenolicAcid = subject('salicylic acid', 'O=C(O)c1ccccc1O', 'startingMaterial');
  const content = (others: readonly Subject[]) =>
    judgeTitration(entered, { product, others }).statements.find(({ id }) => id === 'content')!;
  expect(content([])).toMatchObject({ weight: 'strong', purity: { kind: 'measured' } });
  const bound = content([phenolicAcid]);
  expect(bound).toMatchObject({ weight: 'moderate', purity: { kind: 'atMost' } });
  expect(bound.purity!.share).toBeGreaterThan(content([]).purity!.share);
  expect(bound.limits).toMatch(/^What is left of salicylic acid counts as aspirin here\./);
});
