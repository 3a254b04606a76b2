import { describe, expect, test } from 'vitest';
import patternTable from '../../../facts/structure_patterns.json' with { type: 'json' };
import { rowsOf } from '../../../facts/table.ts';
import type { StructureFacts } from '../../structure.ts';
import { SAMPLE_STATES } from '../infrared.ts';
import { bandsFor, irBands } from './bands.ts';

const byId = new Map(irBands().map((band) => [band.id, band]));
const patterns = new Set(rowsOf(patternTable).map((row) => row['id']!));

describe('every row of the table', () => {
  test('has an id of its own', () => {
    expect(byId.size).toBe(irBands().length);
    expect(byId.size).toBeGreaterThan(300);
  });

  test.each([...irBands()])('$id', (band) => {
    expect(patterns).toContain(band.pattern);
    expect(band.low_percm).toBeLessThanOrEqual(band.coreLow_percm);
    expect(band.coreLow_percm).toBeLessThan(band.coreHigh_percm);
    expect(band.coreHigh_percm).toBeLessThanOrEqual(band.high_percm);
    expect(band.low_percm).toBeGreaterThanOrEqual(400);
    expect(band.high_percm).toBeLessThanOrEqual(4000);
    expect(band.states.length).toBeGreaterThan(0);
    for (const state of band.states) expect(SAMPLE_STATES).toContain(state);
    expect(['vs', 's', 'm', 'w', 'v']).toContain(band.intensity);
    expect(['sharp', 'medium', 'broad', 'very broad']).toContain(band.shape);
    expect(['must', 'may']).toContain(band.duty);
    expect(band.source).not.toBe('');
    if (band.partner !== undefined) expect(byId.has(band.partner), band.partner).toBe(true);
    // A band that may be silent cannot be demanded
    if (band.intensity === 'v') expect(band.duty).toBe('may');
  });
});

const ids = (facts: StructureFacts, state: 'film' | 'gas' | 'atr', vibration: string): string[] =>
  bandsFor(facts, state)
    .filter(({ band }) => band.vibration.startsWith(vibration))
    .map(({ band }) => band.id);

describe('the special row before the general one', () => {
  // Acetophenone: atoms 1 and 2 are C=O
  const ketone: StructureFacts = {
    smiles: 'CC(=O)c1ccccc1',
    matches: { carbonyl: [[1, 2]], ketone: [[1, 2]], 'ketone-aryl': [[1, 2]] },
  };

  test('for the group that it matches', () => {
    expect(ids(ketone, 'film', 'C=O')).toEqual(['ketone-aryl-co']);
    expect(ids(ketone, 'gas', 'C=O')).toEqual(['ketone-aryl-co-gas']);
  });

  test('and the general one for the others', () => {
    const matches = {
      ...ketone.matches,
      carbonyl: [
        [1, 2],
        [9, 10],
      ],
    };
    const found = bandsFor({ ...ketone, matches }, 'film');
    expect(found.find(({ band }) => band.id === 'carbonyl-co')?.atoms).toEqual([[9, 10]]);
  });

  test('outranked patterns give way as refined ones do', () => {
    const matches = { ...ketone.matches, 'ketone-chelated': [[1, 2]] };
    expect(ids({ ...ketone, matches }, 'film', 'C=O')).toEqual(['ketone-chelated-co']);
  });

  test('where it has no row for the state, the general one stays', () => {
    const matches = { carbonyl: [[1, 2]], 'lactam-4-ring': [[1, 2]], lactam: [[1, 2]] };
    expect(ids({ smiles: '', matches }, 'gas', 'C=O')).toEqual(['carbonyl-co-gas']);
  });

  test('of several bands of one vibration all give way', () => {
    const matches = { 'amine-primary': [[0]], 'amino-acid-amine-primary': [[0]] };
    expect(ids({ smiles: '', matches }, 'film', 'N–H stretch')).toEqual(['amino-acid-nh-primary']);
  });
});

test('strong bands of ATR may lie lower, weak ones and upper ends stay', () => {
  const facts = { smiles: '', matches: { acetate: [[1, 2]], 'alkyne-internal': [[4, 5]] } };
  const at = (state: 'film' | 'atr', id: string) =>
    bandsFor(facts, state).find(({ band }) => band.id === id)!.band;
  expect(at('film', 'acetate-co').low_percm - at('atr', 'acetate-co').low_percm).toBe(10);
  expect(at('atr', 'acetate-co').high_percm).toBe(at('film', 'acetate-co').high_percm);
  expect(at('atr', 'alkyne-internal-cc')).toEqual(at('film', 'alkyne-internal-cc'));
});
