import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import * as openchemlib from 'openchemlib';
import { beforeAll, describe, expect, it } from 'vitest';
import { readMaterial } from '../../src/core/chemistry/material.ts';
import { builtInSubstances, tableWith } from '../../src/core/chemistry/substance.ts';
import type { Substance } from '../../src/core/chemistry/substance.ts';

interface Drawing {
  get_descriptors(): string;
  get_inchi(): string;
  delete(): void;
}
interface Toolkit {
  get_mol(smiles: string): Drawing | null;
  get_inchikey_for_inchi(inchi: string): string;
}

const start = createRequire(import.meta.url)('@rdkit/rdkit') as () => Promise<Toolkit>;
const drawn = builtInSubstances().filter(
  (substance): substance is Substance & { smiles: string } => substance.smiles !== undefined,
);

/**
 * Where two toolkits differ from our molar masses by more than 0.02 g/mol, and why. Ours are the
 * standard atomic weights of CIAAW 2021, which for sulfur lie in the middle of an interval.
 */
const EXPLAINED: Readonly<Record<string, string>> = {
  'aluminium sulfate': 'three sulfur atoms at 32.068 against 32.06 or 32.067',
  'chromium(III) sulfate': 'three sulfur atoms',
  'sodium tetrathionate': 'four sulfur atoms',
  aluminium: 'openchemlib reads a bare [Al] as its hydride',
};

let rdkit: Toolkit;
beforeAll(async () => {
  rdkit = await start();
});

describe('every structure of data/substances.csv', () => {
  it('has the molar mass that openchemlib and RDKit give it, to 0.02 g/mol', () => {
    const differ = new Set<string>();
    for (const substance of drawn) {
      const molecule = openchemlib.Molecule.fromSmiles(substance.smiles);
      const drawing = rdkit.get_mol(substance.smiles);
      expect(drawing, substance.name).not.toBeNull();
      const { amw } = JSON.parse(drawing!.get_descriptors()) as { amw: number };
      drawing!.delete();
      for (const theirs of [molecule.getMolecularFormula().relativeWeight, amw])
        if (!(Math.abs(theirs - substance.molarMass_g_mol!) <= 0.02)) differ.add(substance.name);
    }
    expect([...differ].sort()).toEqual(Object.keys(EXPLAINED).sort());
    expect(drawn.length).toBeGreaterThan(600);
  });

  it('has the InChIKey of the public identifier data (inchikeys.csv)', () => {
    const [head, ...lines] = readFileSync(new URL('inchikeys.csv', import.meta.url), 'utf8')
      .trim()
      .split('\n');
    expect(head).toBe('name,cas,inchikey,source');
    const byCas = new Map(drawn.map((substance) => [substance.cas, substance]));
    let checked = 0;
    for (const line of lines) {
      const [, cas, key] = /,([\d-]+),([A-Z]{14}-[A-Z]{10}-[A-Z]),[^,]*$/.exec(line)!;
      const substance = byCas.get(cas);
      expect(substance, `${cas} is not in the table`).toBeDefined();
      const drawing = rdkit.get_mol(substance!.smiles)!;
      expect(rdkit.get_inchikey_for_inchi(drawing.get_inchi()), substance!.name).toBe(key);
      drawing.delete();
      checked++;
    }
    expect(checked).toBeGreaterThan(150);
  });
});

/**
 * Reagents and products as they are called in published preparations: Organic Syntheses 1922
 * (vol. 2), Coll. Vol. 3, 806, and 2003–2018 (vols. 80–95); OpenStax Chemistry 2e.
 */
const CALLED = `
acetophenone; benzaldehyde; sodium hydroxide; 95 % ethanol; benzalacetophenone; sodium; benzyl alcohol;
benzyl benzoate; oxalic acid dihydrate; carbon tetrachloride; diethyl oxalate; glycerol 90 %; hydrogen chloride gas;
glacial acetic acid; 3-chloropropane-1,2-diol; acetone; mesitylene; concentrated sulfuric acid; 2-naphthol;
sodium nitrite; sulfuric acid sp gr 1.32; 1-nitroso-2-naphthol; β-bromostyrene; potassium hydroxide; phenylacetylene;
aniline; hydrochloric acid sp gr 1.138; phenylhydrazine; hydroquinone; sodium dichromate; 1,4-benzoquinone;
p-toluenesulfonyl chloride; zinc dust 90–100 %; 12 N sodium hydroxide; N,N-dimethylaniline; formaldehyde 40 %;
4-(dimethylamino)benzaldehyde; benzil; dibenzyl ketone; tetraphenylcyclopentadienone; hydriodic acid 57 %;
copper(I) iodide; benzylamine; boric acid; toluene; triethylamine; dichloromethane; thionyl chloride;
sodium hydroxide 2.5 N; DMAP; pivaloyl chloride; potassium peroxydisulfate; silver nitrate; zinc oxide; pivalic acid;
copper(II) sulfate; zinc; copper; methyl benzoate; methyl 3-nitrobenzoate; bromobenzene; magnesium; triphenylmethanol;
cyclohexanol; sodium dichromate dihydrate; cyclohexanone; brine; 1 M hydrochloric acid; sodium p-toluenesulfinate dihydrate
`
  .split(';')
  .map((name) => name.trim());

describe('the names of published preparations', () => {
  const table = tableWith([]);
  const known = CALLED.filter((name) => readMaterial(name, table).ok);
  it('are known, but for the rarest products', () => {
    expect(CALLED.filter((name) => !known.includes(name))).toEqual([
      'sodium p-toluenesulfinate dihydrate',
    ]);
  });
});
