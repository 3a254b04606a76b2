import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import published from '../../test/published/structures.json' with { type: 'json' };
import { sameComposition } from '../core/chemistry/composition.ts';
import { printHill } from '../core/chemistry/hill.ts';
import { readSmiles } from '../core/chemistry/smiles.ts';
import type { StructureKit } from './port.ts';
import { loadStructureKit, rdkitStructures } from './rdkit.ts';

const FUZZ_RUNS = Number(process.env.FUZZ_RUNS ?? 5000);

let kit: StructureKit;
beforeAll(async () => {
  kit = await loadStructureKit();
});

/** Tags that are opened and closed in order, attributes in quotes: enough to be well formed. */
function isWellFormed(svg: string): boolean {
  const open: string[] = [];
  const rest = svg.replace(
    /<(\/?)([a-z]+)((?: [A-Za-z:-]+="[^"<]*")*)(\/?)>/g,
    (_, closing, name, __, empty) => {
      if (closing !== '') return open.pop() === name ? '' : '<';
      if (empty === '') open.push(name as string);
      return '';
    },
  );
  return open.length === 0 && !rest.includes('<') && !/&(?!(?:amp|lt|gt|quot|#\d+);)/.test(rest);
}

describe('identity', () => {
  test.each([
    ['CC(=O)Oc1ccccc1C(=O)O', 'C9H8O4', 'BSYNRYMUTXBXSQ-UHFFFAOYSA-N'],
    ['[2H]C(Cl)(Cl)Cl', 'CDCl3', 'HEDRZPFGACZZDS-MICDWDOJSA-N'],
    ['O', 'H2O', 'XLYOFNOQVPJJNP-UHFFFAOYSA-N'],
    ['[O-]S([O-])(=O)=O', 'O4S^2-', 'QAOWNCQODCNURD-UHFFFAOYSA-L'],
  ])('%s', (smiles, formula, key) => {
    const composition = kit.composition(smiles);
    expect(composition.ok && printHill(composition.composition)).toBe(formula);
    expect(kit.inchi(smiles)).toMatchObject({ ok: true, inchiKey: key });
  });

  test('one structure has one canonical SMILES', () => {
    expect(kit.canonical('OCC')).toEqual(kit.canonical('CCO'));
    expect(kit.canonical('C1=CC=CC=C1')).toEqual(kit.canonical('c1ccccc1'));
  });

  test.each(['', '   ', 'C1CC', 'c1ccnc1', 'water', 'C'.repeat(6000)])(
    '%s is refused with a reason',
    (smiles) => {
      for (const answer of [
        kit.composition(smiles),
        kit.canonical(smiles),
        kit.inchi(smiles),
        kit.drawing(smiles),
        kit.hasSubstructure(smiles, 'C'),
      ])
        expect(answer.ok || answer.message).toMatch(/\w/);
      expect(kit.composition(smiles).ok).toBe(false);
    },
  );
});

describe('substructures', () => {
  test.each([
    ['CCO', '[OX2H]', true],
    ['CC(=O)OCC', '[OX2H]', false],
    ['CC(=O)Oc1ccccc1C(=O)O', 'C(=O)[OX2H1]', true],
    // The patterns of a carbonyl band must not take an aromatic atom for a chain's.
    ['c1ccccc1', '[CX3]', false],
  ])('%s and %s: %s', (smiles, smarts, found) => {
    expect(kit.hasSubstructure(smiles, smarts)).toEqual({ ok: true, found });
  });

  test('every match is listed', () => {
    expect(kit.matches('OCCO', '[OX2H]')).toEqual({ ok: true, matches: [[0], [3]] });
    expect(kit.matches('CC', 'O')).toEqual({ ok: true, matches: [] });
    expect(kit.matches('CC', '[[')).toMatchObject({ ok: false });
  });
});

describe('our own reader agrees with the toolkit', () => {
  test(`the structures of the teaching laboratory (${published.source})`, () => {
    for (const [name, smiles, inchiKey] of published.structures) {
      const ours = readSmiles(smiles!);
      const theirs = kit.composition(smiles!);
      if (!ours.ok || !theirs.ok) throw new Error(`${name}: ${smiles} is not read`);
      expect(sameComposition(ours.composition, theirs.composition), name).toBe(true);
      if (inchiKey !== '') expect(kit.inchi(smiles!), name).toMatchObject({ inchiKey });
    }
    expect(published.structures.length).toBeGreaterThan(200);
  });

  test('whatever both read, both count alike', () => {
    // No stereo marks: where they cannot stand, the toolkit drops them with the hydrogens beside them.
    const pieces =
      'C C C O N S P Cl F B c1ccccc1 c1ccncc1 c1cc[nH]c1 C1CC1 (C) (=O) ' +
      '= # ( ) 1 2 . c n o s [NH4+] [O-] [Na+] [nH] / %10';
    const piece = fc.constantFrom(...pieces.split(' '));
    let both = 0;
    fc.assert(
      fc.property(fc.array(piece, { minLength: 1, maxLength: 12 }), (chosen) => {
        const smiles = chosen.join('');
        const ours = readSmiles(smiles);
        const theirs = kit.composition(smiles);
        if (!ours.ok || !theirs.ok) return;
        both++;
        expect(printHill(ours.composition)).toBe(printHill(theirs.composition));
      }),
      { numRuns: FUZZ_RUNS },
    );
    expect(both).toBeGreaterThan(FUZZ_RUNS / 20);
  });
});

describe('drawings', () => {
  test('in one ink, without fonts, identifiers or scripts', () => {
    const drawing = kit.drawing('C[C@H](O)C(=O)Oc1ccccc1', {
      label: 'an "ester" <of> lactic & acid',
    });
    if (!drawing.ok) throw new Error(drawing.message);
    expect(isWellFormed(drawing.svg)).toBe(true);
    expect(drawing.svg).toContain('aria-label="an &quot;ester&quot; &lt;of&gt; lactic &amp; acid"');
    expect(drawing.svg).not.toMatch(/<text|style=| id=|class=|script|href|NaN|#000/);
    expect(drawing.svg.match(/#[0-9a-f]{6}/gi)).toEqual(['#1d2733']);
  });

  test('a size asked for is kept', () => {
    const drawing = kit.drawing('CCO', { width: 200, height: 120, dark: true });
    expect(drawing.ok && drawing.svg).toContain('width="200" height="120" viewBox="0 0 200 120"');
    expect(drawing.ok && drawing.svg).toContain('#e9e4d8');
  });

  test('stereo wedges, dashes and ions survive', () => {
    for (const smiles of ['C[C@@](F)(Cl)Br', '[Na+].[BH4-]', 'O', '[H+]', 'CC.O', 'C[N+](C)(C)C'])
      expect(kit.drawing(smiles).ok, smiles).toBe(true);
  });
});

describe('schemes', () => {
  const ketone = { smiles: 'CC1CCC(=O)CC1', coefficient: 4, caption: '4-methylcyclohexanone' };
  const alcohol = { smiles: 'CC1CCC(O)CC1', coefficient: 4, caption: '4-methylcyclohexanol' };
  const conditions = { above: ['NaBH4', 'ethanol'], below: ['5 °C & <20 °C'] };

  test('molecules, captions, numbers and conditions in one picture', () => {
    const scheme = kit.schemeDrawing([ketone, { text: 'NaBH4' }], [alcohol], conditions);
    if (!scheme.ok) throw new Error(scheme.message);
    expect(isWellFormed(scheme.svg)).toBe(true);
    expect(scheme.svg.match(/<svg/g)).toHaveLength(1);
    for (const text of [
      'ethanol',
      '5 °C &amp; &lt;20 °C',
      '4-methylcyclohexanone',
      '>4</text>',
      'Atkinson Hyperlegible Next',
    ])
      expect(scheme.svg).toContain(text);
    // The 4 of NaBH4 is lowered.
    expect(scheme.svg).toMatch(/NaBH<tspan dy="[\d.]+" font-size="72%">4<\/tspan>/);
    expect(scheme.svg).not.toContain('NaN');
  });

  test('nothing runs out of the picture, and rows break where it is narrow', () => {
    const size = (svg: string): [number, number] => {
      const [, width, height] = /width="([\d.]+)" height="([\d.]+)"/.exec(svg)!;
      return [Number(width), Number(height)];
    };
    const draw = (maxWidth: number): string => {
      const scheme = kit.schemeDrawing([ketone, 'CCO'], [alcohol, 'O'], conditions, { maxWidth });
      if (!scheme.ok) throw new Error(scheme.message);
      return scheme.svg;
    };
    const [wide, low] = size(draw(2000));
    const [narrow, tall] = size(draw(420));
    expect(narrow).toBeLessThanOrEqual(420);
    expect(wide).toBeGreaterThan(narrow);
    expect(tall).toBeGreaterThan(low);
    const [narrowest] = size(draw(1));
    expect(narrowest).toBeGreaterThan(0);
  });

  test('what cannot be drawn is refused', () => {
    expect(kit.schemeDrawing([], ['C'], conditions)).toMatchObject({ ok: false });
    expect(kit.schemeDrawing(['C1CC'], ['C'], conditions)).toMatchObject({ ok: false });
    expect(
      kit.schemeDrawing(
        Array.from({ length: 20 }, () => 'C'),
        ['C'],
        conditions,
      ),
    ).toMatchObject({ ok: false });
  });

  test('no text breaks the picture', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
        const scheme = kit.schemeDrawing(
          [{ smiles: 'C', caption: text }],
          [{ text }],
          { above: [text], below: [text, ''] },
          { label: text },
        );
        return scheme.ok && isWellFormed(scheme.svg);
      }),
      { numRuns: 300 },
    );
  });
});

test('the toolkit gives its memory back', () => {
  const use = (times: number): void => {
    for (let i = 0; i < times; i++) {
      kit.composition('CC(=O)Oc1ccccc1C(=O)O');
      kit.matches('CC(=O)Oc1ccccc1C(=O)O', 'C(=O)O');
      kit.matches('CCO', '[[');
      kit.canonical('C1CC');
    }
  };
  use(200);
  const before = process.memoryUsage();
  use(2000);
  const after = process.memoryUsage();
  // Not given back, these 8,000 molecules would hold 67 MB (8.4 kB each, measured).
  expect(after.arrayBuffers + after.external - before.arrayBuffers - before.external).toBeLessThan(
    20e6,
  );
});

describe('a structure that is too much for the toolkit', () => {
  test('is refused, and the next one is drawn as ever', async () => {
    for (const smiles of ['C'.repeat(900), 'C'.repeat(5000), 'C(C'.repeat(300) + ')'.repeat(300)]) {
      expect((await loadStructureKit()).drawing(smiles)).toMatchObject({ ok: false });
      expect((await loadStructureKit()).drawing('CCO')).toMatchObject({ ok: true });
    }
  });

  test('and breaks it makes it be loaded afresh', async () => {
    const before = await loadStructureKit();
    const broken = {
      version: () => 'broken',
      get_mol: () => {
        throw new WebAssembly.RuntimeError('memory access out of bounds');
      },
    };
    expect(rdkitStructures(broken as never).drawing('CCO')).toMatchObject({ ok: false });
    const after = await loadStructureKit();
    expect(after).not.toBe(before);
    expect(after.drawing('CCO')).toMatchObject({ ok: true });
  });
});

describe('where atoms stand in a drawing', () => {
  test.each(['CC1CCC(=O)CC1', 'O=C(O)c1ccccc1', 'CCO', 'O'])('%s', (smiles) => {
    const found = kit.places(smiles);
    const drawing = kit.drawing(smiles);
    if (!found.ok || !drawing.ok) throw new Error('not drawn');
    const { width, height, atoms } = found.places;
    expect(drawing.svg).toContain(`viewBox="0 0 ${width} ${height}"`);
    for (const { x, y } of atoms) {
      expect(x).toBeGreaterThan(-1);
      expect(y).toBeGreaterThan(-1);
      expect(x).toBeLessThan(width + 1);
      expect(y).toBeLessThan(height + 1);
    }
  });

  test('bonded atoms stand a bond apart', () => {
    const found = kit.places('CC1CCC(=O)CC1');
    if (!found.ok) throw new Error(found.message);
    const [methyl, ring] = found.places.atoms;
    expect(Math.hypot(methyl!.x - ring!.x, methyl!.y - ring!.y)).toBeCloseTo(26, -1);
  });
});
