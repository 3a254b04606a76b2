import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { editDistance, keyOf, locantFreeKey, stereoFreeKey } from './name-key.ts';

describe('keyOf', () => {
  const same: readonly (readonly [string, string])[] = [
    ['Sulphuric acid', 'sulfuric acid'],
    ['aluminum chloride', 'Aluminium  Chloride'],
    ['cesium carbonate', 'caesium carbonate'],
    ['β-naphthol', 'beta-naphthol'],
    ['sodium bicarbonate', 'sodium hydrogen carbonate'],
    ['sodium hydrogencarbonate', 'sodium hydrogen-carbonate'],
    ['sodium bisulphite', 'sodium hydrogensulfite'],
    ['copper (II) sulphate', 'copper(II) sulfate'],
    ['1,2‑dichloroethane', '1,2-dichloroethane'],
    ['conc. sulfuric acid', 'conc sulfuric acid'],
    ['petroleum ether (40–60)', 'petroleum ether 40-60'],
    ['H₂O', 'H2O'],
  ];
  it.each(same)('%s is %s', (a, b) => expect(keyOf(a)).toBe(keyOf(b)));

  const different: readonly (readonly [string, string])[] = [
    ['1-naphthol', '2-naphthol'],
    ['iron(II) chloride', 'iron(III) chloride'],
    ['(+)-limonene', '(-)-limonene'],
    ['sodium sulfite', 'sodium sulfate'],
    ['1,1-dichloroethane', '11-dichloroethane'],
  ];
  it.each(different)('%s is not %s', (a, b) => expect(keyOf(a)).not.toBe(keyOf(b)));

  it('holds no space, hyphen or bracket, whatever is typed', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        expect(keyOf(text)).not.toMatch(/[\s\-()[\]{}]/);
      }),
    );
  });
});

describe('keys with less in them', () => {
  it('leaves stereodescriptors out', () => {
    for (const name of ['(R)-limonene', 'd-limonene', '(±)-limonene', '(+)-limonene'])
      expect(stereoFreeKey(name)).toBe('limonene');
    expect(stereoFreeKey('trans-cinnamic acid')).toBe('cinnamicacid');
    expect(stereoFreeKey('limonene')).toBe('limonene');
  });
  it('leaves locants out', () => {
    expect(locantFreeKey('2-naphthol')).toBe('naphthol');
    expect(locantFreeKey('propan-2-ol')).toBe('propanol');
    expect(locantFreeKey('o-xylene')).toBe('xylene');
    expect(locantFreeKey('octanol')).toBe('octanol');
  });
});

/** All distances the slow way, as the check of the fast one. */
function plainDistance(a: string, b: string): number {
  const rows: number[][] = [];
  for (let i = 0; i <= a.length; i++) {
    rows.push([]);
    for (let j = 0; j <= b.length; j++) {
      let cost = Math.max(i, j);
      if (i > 0 && j > 0) {
        const change = a[i - 1] === b[j - 1] ? 0 : 1;
        cost = Math.min(rows[i - 1]![j]! + 1, rows[i]![j - 1]! + 1, rows[i - 1]![j - 1]! + change);
        if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
          cost = Math.min(cost, rows[i - 2]![j - 2]! + 1);
      }
      rows[i]!.push(cost);
    }
  }
  return rows[a.length]![b.length]!;
}

describe('editDistance', () => {
  it('counts slips of the pen', () => {
    expect(editDistance('acetone', 'acetnoe', 2)).toBe(1);
    expect(editDistance('acetone', 'acetone', 2)).toBe(0);
    expect(editDistance('acetone', 'acton', 2)).toBe(2);
    expect(editDistance('acetone', 'ethanol', 2)).toBe(Infinity);
  });
  it('agrees with the full table within its limit', () => {
    const word = fc.string({ unit: fc.constantFrom('a', 'b', 'c'), maxLength: 8 });
    fc.assert(
      fc.property(word, word, fc.integer({ min: 0, max: 4 }), (a, b, limit) => {
        const full = plainDistance(a, b);
        expect(editDistance(a, b, limit)).toBe(full > limit ? Infinity : full);
      }),
    );
  });
});
