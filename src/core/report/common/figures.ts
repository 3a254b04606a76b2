import type { Term } from '../../record/run.ts';
import type { Charge } from '../../enact/enactment.ts';

type Measure = 'mass' | 'volume' | 'amount';

const VALUE: Readonly<Record<Measure, (charge: Charge) => number | undefined>> = {
  mass: ({ mass_g }) => mass_g,
  volume: ({ volume_mL }) => volume_mL,
  amount: ({ amount_mmol }) => amount_mmol,
};

const isMeasure = (as: Charge['measuredAs']): as is Measure => Object.hasOwn(VALUE, as);

/** What a person reads off a table of computed amounts. */
const MOST = 3;
/** "2 g" is seldom meant as badly as 1.5 to 2.5 g. */
const LEAST = 2;

/**
 * Significant figures of `value`, which is the sum of charges or one taking of them, as it was
 * written or read; undefined where that is not by a plain figure (drops, a range, an excess).
 */
export function figuresGiven(charges: readonly Charge[], value: number): number | undefined {
  const last = charges.map(({ lastDigit = Number.NaN }) => lastDigit);
  const place = Math.max(...last);
  if (!(place > 0) || !(value > 0)) return undefined;
  const figures = figuresRead(value, place);
  const exact = Math.abs(Math.round(value / place) * place - value) < 1e-9 * value;
  return exact ? figures : Math.max(figures, MOST);
}

/** Significant figures of a reading with this last digit: 0.8990 g where 0.1 mg was read. */
export function figuresRead(value: number, lastDigit: number): number {
  const size = Math.floor(Math.log10(Math.abs(value)) + 1e-9);
  return Math.max(1, size - Math.round(Math.log10(lastDigit)) + 1);
}

/** Of a sum of readings: to the last digit of the coarsest. */
export function figuresOfSum(value: number, terms: readonly Term[]): number | undefined {
  const coarsest = Math.max(...terms.map(({ reading }) => reading.lastDigit));
  return value === 0 || !(coarsest > 0) ? undefined : figuresRead(value, coarsest);
}

/** Figures of what is worked out from charges: as many as they were given with, two or three. */
export function figuresComputed(charges: readonly Charge[]): number {
  const given = charges.flatMap((charge) => {
    const { measuredAs, repeat } = charge;
    if (!isMeasure(measuredAs)) return [];
    const value = VALUE[measuredAs](charge);
    const one = (value ?? 0) / (charge.basis === 'measured' ? 1 : Math.max(1, repeat));
    return figuresGiven([charge], one) ?? [];
  });
  return Math.min(MOST, Math.max(LEAST, Math.min(...given, MOST)));
}
