import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { tableWith } from '../../chemistry/substance.ts';
import { enact } from '../../enact/enact.ts';
import { programOf } from '../../enact/program.ts';
import { readExperiment } from '../../experiment/read.ts';
import { formatNumber, formatQuantity } from '../../quantity/print.ts';
import { figuresComputed, figuresGiven, figuresRead } from './figures.ts';

function chargesOf(...amounts: string[]) {
  const experiment = readExperiment(
    [
      '# Figures',
      '## Vessels',
      '- flask: 250 mL flask',
      '## Procedure',
      ...amounts.map((amount, i) => `${i + 1}. Add ${amount} to the flask.`),
    ].join('\n\n'),
  );
  return enact(programOf(experiment), tableWith(experiment.substances)).charges;
}

const plain = (text: string) => text.replace('\u202f', ' ');

describe('figures as they were given', () => {
  it.each([
    ['benzil 2.10 g', '2.10 g'],
    ['zinc powder 2.0 g', '2.0 g'],
    ['benzil 150 mg', '0.150 g'],
    ['ethanol 15 mL', '15 mL'],
    ['ethanol 3.0 mL', '3.0 mL'],
    // Three takings of one figure are still known to the millilitre
    ['ethanol 3 × 5 mL', '15 mL'],
    // The middle of a range was written by nobody
    ['ethanol 2–3 mL', '2.5 mL'],
  ])('%s: %s', (written, shown) => {
    const charges = chargesOf(written);
    const [{ measuredAs, mass_g, volume_mL = 0 }] = charges as [(typeof charges)[number]];
    const kind = measuredAs === 'mass' ? 'mass' : 'volume';
    const value = kind === 'mass' ? mass_g : volume_mL;
    expect(plain(formatQuantity(value, kind, figuresGiven(charges, value)))).toBe(shown);
  });

  it('lose nothing in a sum', () => {
    const charges = chargesOf('benzil 10 g', 'benzil 0.25 g');
    expect(formatNumber(10.25, figuresGiven(charges, 10.25))).toBe('10.3');
    const alike = chargesOf('ethanol 20 mL', 'ethanol 7.5 mL');
    expect(formatNumber(27.5, figuresGiven(alike, 27.5))).toBe('27.5');
  });

  it('let what follows from them have two or three', () => {
    const figures = (amount: string) => figuresComputed(chargesOf(amount));
    expect(figures('zinc powder 2.0 g')).toBe(2);
    expect(figures('benzil 2.10 g')).toBe(3);
    expect(figures('benzil 2.1042 g')).toBe(3);
    expect(figures('zinc powder 2 g')).toBe(2);
    expect(figures('ethanol 2–3 mL')).toBe(3);
  });

  it('print a reading back as it was read', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 99_999 }), fc.integer({ min: 0, max: 4 }), (n, k) => {
        const read = (n / 10 ** k).toFixed(k);
        expect(formatNumber(Number(read), figuresRead(Number(read), 10 ** -k))).toBe(read);
      }),
    );
  });
});
