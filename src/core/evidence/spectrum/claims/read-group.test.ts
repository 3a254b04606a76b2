import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { irBands } from '../judge/bands.ts';
import { readGroup } from './read-group.ts';
import type { GroupRead } from './read-group.ts';

const rowsBy = new Map(irBands().map((band) => [band.id, band]));

function read(words: string): GroupRead {
  const reading = readGroup(words);
  if (reading.kind === 'unread') throw new Error(`${words}: ${reading.what}`);
  return reading;
}

describe('words of the trade', () => {
  it.each([
    ['C=O', 'c=o', 'ketone-alkyl-co', 'alcohol-oh'],
    ['carbonyl', 'c=o', 'ester-alkyl-co', 'alcohol-oh'],
    ['ν(C=O), ketone', 'c=o', 'ketone-alkyl-co', 'ester-alkyl-co'],
    ['C=O stretch, ester', 'c=o', 'ester-alkyl-co', 'ketone-alkyl-co'],
    ['O–H stretch, alcohol', 'o-h', 'alcohol-oh', 'acid-oh'],
    ['O−H', 'o-h', 'alcohol-oh', 'nitrile-cn'],
    ['OH broad', 'o-h', 'alcohol-oh', 'ketone-alkyl-co'],
    ['hydroxyl', 'o-h', 'alcohol-oh', 'ketone-alkyl-co'],
    ['O-H (carboxylic acid)', 'o-h', 'acid-oh', 'alcohol-oh'],
    ['sp3 C-H', 'alkyl-ch', 'methylene-ch', 'aryl-ch-stretch'],
    ['C(sp³)–H stretch', 'alkyl-ch', 'methylene-ch', 'aryl-ch-stretch'],
    ['alkane C–H', 'alkyl-ch', 'methylene-ch', 'aryl-ch-stretch'],
    ['sp² C‑H', 'unsaturated-ch', 'aryl-ch-stretch', 'methylene-ch'],
    ['=C–H stretch', 'unsaturated-ch', 'alkene-ch-stretch', 'methylene-ch'],
    ['aromatic C-H', 'unsaturated-ch', 'aryl-ch-stretch', 'alkene-ch-stretch'],
    ['C≡C–H', 'c#c-h', 'alkyne-ch-stretch', 'methylene-ch'],
    ['nitrile', 'c#n', 'nitrile-cn', 'amine-alkyl-cn-stretch'],
    ['C≡N', 'c#n', 'nitrile-cn', 'amine-alkyl-cn-stretch'],
    ['CN', 'cn', 'nitrile-cn', 'alcohol-oh'],
    ['C–N stretch', 'c-n', 'amine-alkyl-cn-stretch', 'nitrile-cn'],
    ['aromatic C=C', 'c=c', 'ring-1600', 'alkene-vinyl-cc'],
    ['C=C, alkene', 'c=c', 'alkene-vinyl-cc', 'ring-1600'],
    ['aromatic ring', undefined, 'ring-1600', 'alkene-vinyl-cc'],
    ['C–O–C, ether', 'c-o', 'ether-alkyl-coc', 'alcohol-primary-co'],
    ['C–OH', 'c-o', 'alcohol-primary-co', 'alcohol-oh'],
    ['NO₂ asymmetric', 'no2', 'nitro-asym', 'amine-primary-scissor'],
    ['N–H bend', 'n-h', 'amine-primary-scissor', 'amine-primary-nh-asym'],
    ['NH2 stretch', 'n-h', 'amine-primary-nh-asym', 'amine-primary-scissor'],
    ['δ(CH2)', 'alkyl-ch', 'methylene-scissor', 'methylene-ch'],
    ['CHO', 'aldehyde-ch', 'aldehyde-ch-low', 'ketone-alkyl-co'],
    ['aldehydic C–H', 'aldehyde-ch', 'aldehyde-ch-low', 'methylene-ch'],
    ['oop, monosubstituted', 'oop', 'mono-oop', 'ortho-oop'],
    ['S=O, sulphone', 's=o', 'sulfone-asym', 'nitro-asym'],
    ['S=O, sulfone', 's=o', 'sulfone-asym', 'nitro-asym'],
  ])('%s', (words, bond, has, hasNot) => {
    const reading = read(words);
    if (bond !== undefined) expect(reading.bonds).toContain(bond);
    expect(rowsBy.has(has), has).toBe(true);
    expect([...reading.bandIds]).toContain(has);
    expect([...reading.bandIds]).not.toContain(hasNot);
  });

  it.each([
    ['no C=O', 'absent'],
    ['C=O gone', 'absent'],
    ['absence of O–H', 'absent'],
    ['NO2', 'present'],
    ['C=O', 'present'],
    ['note: C=O', 'present'],
  ])('%s says %s', (words, said) => {
    expect(read(words).said).toBe(said);
  });

  it.each([
    ['CO2', 'carbonDioxide'],
    ['water', 'water'],
    ['overtone of C=O', 'overtone'],
    ['residual acetone', 'solvent'],
    ['Nujol', 'oil'],
    ['C=O of the starting material', 'startingMaterial'],
  ])('%s is foreign: %s', (words, foreign) => {
    expect(read(words).foreign).toBe(foreign);
  });

  it.each(['', 'fingerprint', 'peak', '???', 'strong band'])(
    '“%s” is answered with what to write',
    (words) => {
      const reading = readGroup(words);
      expect(reading.kind).toBe('unread');
      if (reading.kind === 'unread') expect(reading.whatToDo).toContain('C=O');
    },
  );

  it('never throws, and names only rows that there are', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 200, unit: 'grapheme' }), (words) => {
        const reading = readGroup(words);
        if (reading.kind === 'read')
          for (const id of reading.bandIds) expect(rowsBy.has(id)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
});
