import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { readCsv } from '../../scripts/csv.ts';
import { timesIn } from '../core/evidence/structure.ts';
import { structureFacts, structurePatterns } from './facts.ts';
import type { StructureKit } from './port.ts';
import { loadStructureKit } from './rdkit.ts';

const table = new URL('../../test/published/structure-patterns.csv', import.meta.url);
const sorted = readCsv(readFileSync(table, 'utf8'))
  .slice(1)
  .map(([pattern, holds, nearMisses]) => ({
    pattern: pattern!,
    holds: holds!.split(' '),
    nearMisses: nearMisses!.split(' '),
  }));
const structures = [...new Set(sorted.flatMap((row) => [...row.holds, ...row.nearMisses]))];
const patterns = structurePatterns();

let kit: StructureKit;
beforeAll(async () => {
  kit = await loadStructureKit();
});

function heldBy(smiles: string): Readonly<Record<string, readonly (readonly number[])[]>> {
  const reading = structureFacts(kit, smiles);
  if (!reading.ok) throw new Error(`${smiles}: ${reading.message}`);
  return reading.facts.matches;
}

describe('every pattern against structures sorted by hand', () => {
  test('each has two that hold it and two near misses', () => {
    expect(sorted.map((row) => row.pattern)).toEqual(patterns.map((pattern) => pattern.id));
    for (const row of sorted) {
      expect(new Set(row.holds).size, row.pattern).toBeGreaterThanOrEqual(2);
      expect(new Set(row.nearMisses).size, row.pattern).toBeGreaterThanOrEqual(2);
    }
  });

  test.each(sorted)('$pattern', ({ pattern, holds, nearMisses }) => {
    const found = [...holds, ...nearMisses].filter((smiles) => pattern in heldBy(smiles));
    expect(found).toEqual(holds);
  });
});

describe('the table of patterns', () => {
  test('what a pattern refines stands before it', () => {
    const seen = new Set<string>();
    for (const { id, refines } of patterns) {
      for (const general of refines) expect(seen, `${id} refines ${general}`).toContain(general);
      seen.add(id);
    }
    expect(seen.size).toBe(patterns.length);
  });

  test('a group that holds a pattern holds what it refines', () => {
    const alone = kit.patternSet(patterns.map((pattern) => ({ ...pattern, refines: [] })));
    if (!alone.ok) throw new Error(alone.message);
    const astray: string[] = [];
    for (const smiles of structures) {
      const found = alone.set.matches(smiles);
      if (!found.ok) throw new Error(found.message);
      for (const { id, refines } of patterns)
        for (const match of found.matches[id] ?? [])
          for (const general of refines)
            if (
              !(found.matches[general] ?? []).some(
                (other) => other.includes(match[0]!) && match.includes(other[0]!),
              )
            )
              astray.push(`${smiles}: ${id} without ${general}`);
    }
    expect(astray).toEqual([]);
  });

  test('a SMARTS that cannot be read is refused with its id', () => {
    expect(kit.patternSet([{ id: 'broken', smarts: '[CX3', refines: [] }])).toMatchObject({
      ok: false,
      message: expect.stringContaining('broken') as string,
    });
  });
});

describe('structureFacts', () => {
  test.each([
    ['CC(=O)Oc1ccccc1C(=O)O', { carbonyl: 2, 'ester-phenyl': 1, 'acid-aryl': 1, alcohol: 0 }],
    ['OC(=O)CCC(=O)O', { 'acid-dicarboxylic': 2, 'acid-hydroxyl': 2 }],
    ['CC(=O)OC(C)=O', { 'anhydride-open': 2, ester: 0, ketone: 0 }],
    ['OCC(O)CO', { 'alcohol-primary': 2, 'alcohol-secondary': 1 }],
    ['C/C=C/C=C\\C', { 'alkene-trans': 1, 'alkene-cis': 1, 'alkene-1,2': 2 }],
  ])('counts in %s', (smiles, counts) => {
    const facts = { smiles, matches: heldBy(smiles) };
    for (const [pattern, times] of Object.entries(counts))
      expect(timesIn(facts, pattern), pattern).toBe(times);
  });

  test.each(['', 'C1CC', 'water'])('%s is refused with a reason', (smiles) => {
    const reading = structureFacts(kit, smiles);
    expect(reading.ok || reading.message).toMatch(/\w/);
  });

  test('another way to write a structure holds the same patterns as often', () => {
    fc.assert(
      fc.property(fc.constantFrom(...structures), (smiles) => {
        const other = kit.canonical(smiles);
        if (!other.ok) throw new Error(other.message);
        const counts = (text: string) =>
          Object.entries(heldBy(text)).map(([id, matches]) => [id, matches.length]);
        expect(counts(other.smiles)).toEqual(counts(smiles));
      }),
      { numRuns: 200 },
    );
  });

  test('a second part adds its groups and takes none away', () => {
    fc.assert(
      fc.property(fc.constantFrom(...structures), fc.constantFrom(...structures), (one, other) => {
        const both = { smiles: '', matches: heldBy(`${one}.${other}`) };
        const first = { smiles: '', matches: heldBy(one) };
        const second = { smiles: '', matches: heldBy(other) };
        for (const { id } of patterns)
          expect(timesIn(both, id), id).toBe(timesIn(first, id) + timesIn(second, id));
      }),
      { numRuns: 200 },
    );
  });
});
