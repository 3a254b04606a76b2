import { describe, expect, it } from 'vitest';
import { tableWith } from '../../chemistry/substance.ts';
import type { Agreement, Judged } from '../statement.ts';
import type { Subjects } from '../subject.ts';
import { judgeMelting } from './judge.ts';
import type { MeltingEntered } from './schema.ts';

const benzoic: Subjects = {
  product: {
    role: 'product',
    substance: tableWith().byName.get('benzoic acid')!,
    literature: { meltingRange_C: [122, 123], sources: { meltingRange_C: 'a handbook' } },
  },
  others: [],
};

const entered = (more: Partial<MeltingEntered>): MeltingEntered => ({
  technique: 'meltingRange',
  sample: 'product',
  low_C: 121,
  high_C: 122.5,
  ...more,
});

const of = (judged: Judged, id: string) => judged.statements.find((one) => one.id === id)!;

describe('mixed with a known sample', () => {
  const known = (substance: string) => ({
    sample: 'mixed' as const,
    mixedWith: { substance, range: { low_C: 121.5, high_C: 122.5 } },
  });
  const alone = { low_C: 121, high_C: 122.3 };

  it.each(['Benzoic acid', ' benzoic acid ', 'benzenecarboxylic acid'])(
    'speaks of the product, however it is called: %s',
    (substance) => {
      const own = benzoic.product!;
      const synonyms = ['benzenecarboxylic acid'];
      const product = { ...own, substance: { ...own.substance, synonyms } };
      const range = { ...known(substance), low_C: 121, high_C: 122.3, alone };
      const said = of(judgeMelting(entered(range), { product, others: [] }), 'melting-mixed');
      expect(said).toMatchObject({ substance: 'benzoic acid', agreement: 'agrees' });
      expect(said.says).toMatch(/as when both are one substance/);
    },
  );

  it.each<[string, Partial<MeltingEntered>, Agreement]>([
    [
      'a pure sample raises an impure one',
      { low_C: 119, high_C: 121.8, alone: { low_C: 115, high_C: 119.5 } },
      'agrees',
    ],
    ['above both', { low_C: 126, high_C: 127, alone: { low_C: 115, high_C: 119.5 } }, 'cannotTell'],
    ['a little lower, its own range not known', { low_C: 117, high_C: 120.5 }, 'cannotTell'],
    ['much lower, its own range not known', { low_C: 95, high_C: 108 }, 'disagrees'],
  ])('%s', (_, range, agreement) => {
    const judged = judgeMelting(entered({ ...known('benzoic acid'), ...range }), benzoic);
    expect(of(judged, 'melting-mixed').agreement).toBe(agreement);
  });
});

it('heated too fast, a range decides little', () => {
  const fast = { heatingRate_C_min: 10 };
  const above = judgeMelting(entered({ ...fast, low_C: 125, high_C: 127.5 }), benzoic);
  expect(of(above, 'melting-range')).toMatchObject({ agreement: 'disagrees', weight: 'weak' });
  const wide = judgeMelting(entered({ ...fast, low_C: 118, high_C: 123 }), benzoic);
  expect(of(wide, 'melting-purity').agreement).toBe('cannotTell');
  const slow = judgeMelting(entered({ low_C: 118, high_C: 123 }), benzoic);
  expect(of(slow, 'melting-purity').agreement).toBe('disagrees');
});
