import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { completions, findSubstance } from './find.ts';
import { builtInSubstances, makeSubstance, tableWith } from './substance.ts';
import type { Substance } from './substance.ts';

const table = tableWith([]);

function made(name: string, smiles: string, synonyms: string[] = []): Substance {
  const making = makeSubstance({ name, smiles, synonyms });
  if (!making.ok) throw new Error(making.message);
  return making.substance;
}

describe('findSubstance', () => {
  const found: readonly (readonly [string, string])[] = [
    ['NaBH4', 'sodium borohydride'],
    ['H2SO4', 'sulfuric acid'],
    ['CuSO4·5H2O', 'copper(II) sulfate pentahydrate'],
    ['CHCl3', 'chloroform'],
    ['SiO2', 'silicon dioxide'],
    ['Na2C2O4', 'sodium oxalate'],
    ['CH3COOH', 'acetic acid'],
    ['Sulphuric Acid', 'sulfuric acid'],
    ['aluminum chloride', 'aluminium chloride'],
    ['cesium carbonate', 'caesium carbonate'],
    ['beta-naphthol', '2-naphthol'],
    ['β-naphthol', '2-naphthol'],
    ['sodium bicarbonate', 'sodium hydrogencarbonate'],
    ['sodium hydrogen carbonate', 'sodium hydrogencarbonate'],
    ['ether', 'diethyl ether'],
    ['THF', 'tetrahydrofuran'],
    ['hexanes', 'hexane'],
    ['limonene', '(R)-limonene'],
    ['menthol', '(-)-menthol'],
    ['cinnamic acid', 'trans-cinnamic acid'],
    ['rac-benzoin', 'benzoin'],
    ['4 methylcyclohexanone', '4-methylcyclohexanone'],
    ['copper (II) sulphate', 'copper(II) sulfate'],
    ['iron(III) chloride', 'iron(III) chloride'],
    ['aspirin', 'acetylsalicylic acid'],
  ];
  it.each(found)('%s is %s', (written, name) => {
    const finding = findSubstance(table, written);
    expect(finding.kind === 'found' && finding.substance.name).toBe(name);
  });

  const ambiguous: readonly (readonly [string, string])[] = [
    ['alcohol', 'ethanol'],
    ['xylene', 'p-xylene'],
    ['naphthol', '1-naphthol'],
    ['propanol', 'propan-2-ol'],
    ['butanol', 'butan-1-ol'],
    ['nitrobenzaldehyde', '3-nitrobenzaldehyde'],
    ['petroleum ether', 'petroleum ether 40–60'],
    ['iron chloride', 'iron(II) chloride'],
    ['methylcyclohexanone', '4-methylcyclohexanone'],
  ];
  it.each(ambiguous)('%s may be %s and others', (written, one) => {
    const finding = findSubstance(table, written);
    expect(finding.kind).toBe('ambiguous');
    if (finding.kind !== 'ambiguous') return;
    expect(finding.candidates.map((c) => c.name)).toContain(one);
    expect(finding.candidates.length).toBeGreaterThan(1);
  });

  const unknown: readonly (readonly [string, string | undefined])[] = [
    ['acid', undefined],
    ['petrol', undefined],
    ['sodium borohydrde', 'sodium borohydride'],
    ['acetnoe', 'acetone'],
    ['4-methylcyclohexanon', '4-methylcyclohexanol'],
    ['cis-stilbene', undefined],
    ['C2H6O', 'ethanol'],
    ['C7H14O', undefined],
    ['pentanol', 'pentan-1-ol'],
    ['', undefined],
    ['🧪', undefined],
  ];
  it.each(unknown)('%s is not taken for what is near', (written, near) => {
    const finding = findSubstance(table, written);
    expect(finding.kind).toBe('unknown');
    if (finding.kind === 'unknown' && near !== undefined)
      expect(finding.near.map((s) => s.name)).toContain(near);
  });

  it('never takes the other enantiomer', () => {
    expect(findSubstance(table, '(S)-limonene').kind).toBe('unknown');
    expect(findSubstance(table, '(-)-limonene').kind).toBe('unknown');
  });

  it('finds every substance by its name and each synonym', () => {
    for (const substance of builtInSubstances())
      for (const name of [substance.name, ...substance.synonyms]) {
        const finding = findSubstance(table, name);
        expect(finding.kind === 'found' && finding.substance.name, name).toBe(substance.name);
      }
  });

  it('says what it finds in bounded time, whatever is typed', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 300 }), (text) => {
        expect(['found', 'ambiguous', 'unknown']).toContain(findSubstance(table, text).kind);
      }),
    );
  });
});

describe('a document’s own substances', () => {
  const own = made('acetone', 'CC(C)=O', ['dry acetone']);
  const fresh = made('compound A', 'CCCC(=O)CC', ['ether']);
  const layered = tableWith([own, fresh]);

  it('win over the built-in ones, under every name', () => {
    for (const name of ['acetone', 'Acetone', 'propanone', 'dry acetone']) {
      const finding = findSubstance(layered, name);
      expect(finding.kind === 'found' && finding.substance).toBe(own);
    }
    const ether = findSubstance(layered, 'ether');
    expect(ether.kind === 'found' && ether.substance).toBe(fresh);
  });
  it('leave the rest as it is', () => {
    expect(layered.byName.get('ethanol')).toBe(table.byName.get('ethanol'));
    expect(findSubstance(table, 'compound A').kind).toBe('unknown');
    expect(layered.all().length).toBe(builtInSubstances().length + 1);
  });
});

describe('completions', () => {
  it('gives names that begin so, then names that hold it', () => {
    const names = completions(table, 'sodium boro', 5).map((c) => c.text);
    expect(names[0]).toBe('sodium borohydride');
    expect(completions(table, 'isoamyl', 3).map((c) => c.substance.name)).toContain(
      '3-methylbutan-1-ol',
    );
    expect(completions(table, 'borohydride', 3)[0]?.text).toBe('sodium borohydride');
    expect(completions(table, 's', 10)).toHaveLength(10);
    expect(completions(table, '', 10)).toEqual([]);
  });
});
