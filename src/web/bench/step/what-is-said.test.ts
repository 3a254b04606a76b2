import { describe, expect, it } from 'vitest';
import { entry } from '../outbox/testing.ts';
import { linesOf } from '../record/standing.ts';
import { KETONE } from '../testing.tsx';
import type { BenchField } from '../sheet.ts';
import { saidOf } from './what-is-said.ts';

const { use: _use, item: _item, planned: _planned, low: _low, high: _high, ...place } = KETONE;
const GROSS: BenchField = {
  ...place,
  kind: 'gross',
  vessel: 'flask',
  n: 2,
  net: { tare: 'tare flask', planned_g: 1, low_g: 0.02, high_g: 1.2 },
};
const tare = entry('t', { kind: 'tare', step: '1', vessel: 'flask', value: 53.1, unit: 'g' });
const gross = (n: number, value: number) =>
  entry(`g${n}`, { kind: 'gross', step: '4', vessel: 'flask', value, unit: 'g', n, decimals: 3 });

const said = (entries: Parameters<typeof linesOf>[0], field = GROSS, ids = ['g2']) => {
  const all = linesOf(entries);
  const own = all.filter((line) => ids.includes(line.entry.id));
  return saidOf(field, own, all, '.');
};

describe('what a weighing says', () => {
  it.each([
    [54.112, 54.098, '0.014\u202fg less than before: not at constant mass yet.'],
    [54.1, 54.098, '0.002\u202fg from before: constant mass.'],
    [54.098, 54.098, 'As before: constant mass.'],
    [54.05, 54.098, '0.048\u202fg more than before: was it cold, does it take up water?'],
  ])('after %s g, %s g', (first, second, change) => {
    expect(said([tare, gross(1, first), gross(2, second)])).toEqual({
      net: 'Leaves 0.998\u202fg.',
      change,
    });
  });

  it('is what it leaves, also where it is the first', () => {
    expect(said([tare, gross(1, 54.112)], { ...GROSS, n: 1 }, ['g1'])).toEqual({
      net: 'Leaves 1.012\u202fg.',
    });
    expect(said([gross(1, 54.112)], { ...GROSS, n: 1 }, ['g1'])).toEqual({});
  });

  it('is a doubt where it leaves more than can be there', () => {
    expect(said([tare, gross(1, 55.5)], { ...GROSS, n: 1 }, ['g1'])).toEqual({
      doubt: 'That leaves 2.4\u202fg; at most 1.2\u202fg is expected.',
    });
  });
});

describe('what a charge says', () => {
  const portion = (id: string, value: number) =>
    entry(id, { kind: 'charge', step: '1', use: '1.1', value, unit: 'g' });

  it('is a doubt about all portions together', () => {
    expect(said([portion('a', 11.2)], KETONE, ['a'])).toEqual({ doubt: '10 times the plan.' });
    expect(said([portion('a', 0.4)], KETONE, ['a']).doubt).toMatch(/^Less than the least/);
    expect(said([portion('a', 0.4), portion('b', 0.7)], KETONE, ['a', 'b'])).toEqual({});
  });

  it('is nothing where the unit is another one', () => {
    const volume = { ...portion('a', 11.2), unit: 'mL' };
    expect(said([volume], KETONE, ['a'])).toEqual({});
  });
});
