import { describe, expect, it } from 'vitest';
import { findInstrument, standardUncertaintyOfReading } from './instrument.ts';
import { laboratoryInstruments } from './laboratory.ts';

const BALANCE = {
  id: 'balance-3f2a91',
  name: 'Balance by the window',
  readability_g: 0.001,
  repeatability_g: 0.0008,
  linearity_g: 0.0015,
  capacity_g: 320,
};

describe('instruments of the laboratory', () => {
  it('has the figures of a balance in the terms of its budget', () => {
    const [balance] = laboratoryInstruments({ balances: [BALANCE], glassware: [] });
    const { terms } = standardUncertaintyOfReading(balance!, 10);
    const byName = new Map(terms.map(({ name, u }) => [name, u]));
    expect(byName.get('linearity')).toBeCloseTo(0.0015 / Math.sqrt(3), 12);
    expect(byName.get('repeatability')).toBe(0.0008);
    expect(byName.get('readability')).toBeCloseTo(0.0005 / Math.sqrt(3), 12);
  });

  it.each([
    ['25 mL pipette no. 4', 25, 'pipette', 'triangular', undefined],
    ['measuring cylinder, prep room', 25, 'cylinder', 'triangular', 0.25],
    ['buret', 50, 'burette', 'triangular', 0.05],
    ['Micropipette P1000', 1, 'piston pipette', 'rectangular', undefined],
    ['medicine cup', 30, 'beaker', 'rectangular', undefined],
  ] as const)(
    'takes "%s" of %d mL for a %s',
    (name, volume_mL, kind, distribution, readability) => {
      const glass = { id: 'glass-1', name, volume_mL, tolerance_mL: 0.03 };
      const [instrument] = laboratoryInstruments({ balances: [], glassware: [glass] });
      expect(instrument).toMatchObject({ kind, distribution, tolerance: 0.03, unit: 'mL' });
      expect(instrument!.readability).toBe(readability);
    },
  );

  it('finds its own by id, by name in any order of words, and before the table', () => {
    const own = laboratoryInstruments({
      balances: [BALANCE, { ...BALANCE, id: 'balance-1mg', name: 'Old balance' }],
      glassware: [],
    });
    expect(findInstrument('BALANCE-3F2A91', own)?.name).toBe('Balance by the window');
    expect(findInstrument('window by the balance', own)?.id).toBe('balance-3f2a91');
    expect(findInstrument('balance-1mg', own)?.name).toBe('Old balance');
    expect(findInstrument('balance-1mg')?.name).toBe('balance 1 mg');
    expect(findInstrument('no such balance', own)).toBeUndefined();
  });
});
