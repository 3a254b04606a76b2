import {
  balanceForReading,
  findInstrument,
  standardUncertaintyOfDifference,
  standardUncertaintyOfReading,
} from '../quantity/instrument.ts';
import type { Instrument } from '../quantity/instrument.ts';
import { fromHalfWidth } from '../quantity/uncertain.ts';
import type { Reading } from './run.ts';

/** A reading with its standard uncertainty: one independent input of a yield. */
export interface Measurement {
  readonly id: string;
  /** In words: "tare of the dish", "sodium benzoate, step 1". */
  readonly what: string;
  readonly value: number;
  readonly u: number;
  readonly unit: 'g' | 'mL';
  /** The instrument's name, or what its place was taken by. */
  readonly instrument: string;
  /** `assumed` where the record names no instrument that is known. */
  readonly basis: 'measured' | 'assumed';
  readonly shape: 'normal' | 'rectangular';
}

/**
 * The uncertainty of a reading from its instrument, the laboratory's own first; without one, from the balance that its
 * decimals suggest; of a volume, from half a unit of its last digit. A mass that stands for itself
 * (no tare beside it) was read on a tared balance: two readings, and the linearity counts twice
 * (EURACHEM/CITAC CG 4, example A2).
 */
export function measurementOf(
  reading: Reading,
  what: string,
  own: readonly Instrument[] = [],
): Measurement {
  const { id, value, kind } = reading;
  const unit = kind === 'volume' ? 'mL' : 'g';
  const named = instrumentNamed(reading.instrument, own);
  const fitting = named?.unit === unit ? named : undefined;
  const instrument = fitting ?? (kind === 'mass' ? balanceByDecimals(reading) : undefined);
  if (instrument === undefined) {
    return {
      id,
      what,
      value,
      u: fromHalfWidth(reading.lastDigit / 2, 'rectangular'),
      unit,
      instrument: 'half a unit of the last digit written',
      basis: 'assumed',
      shape: 'rectangular',
    };
  }
  return {
    id,
    what,
    value,
    u: uncertaintyOf(instrument, reading),
    unit,
    instrument: instrument.name,
    basis: fitting === undefined ? 'assumed' : 'measured',
    shape: 'normal',
  };
}

/** By its name in the table, or by the readability that its own name gives: "balance 2 (0.001 g)". */
function instrumentNamed(
  name: string | undefined,
  own: readonly Instrument[],
): Instrument | undefined {
  if (name === undefined) return undefined;
  const readability = /(?<![\d.,])\d+(?:[.,]\d+)?\s*m?g(?![a-z])/i.exec(name)?.[0];
  const known = findInstrument(name, own);
  return known ?? (readability === undefined ? undefined : balanceForReading(readability));
}

function uncertaintyOf(instrument: Instrument, reading: Reading): number {
  const alone = reading.entry.kind !== 'tare' && reading.entry.kind !== 'gross';
  return instrument.kind === 'balance' && alone
    ? standardUncertaintyOfDifference(instrument, reading.value, 0).u
    : standardUncertaintyOfReading(instrument, reading.value).u;
}

function balanceByDecimals(reading: Reading): Instrument | undefined {
  return balanceForReading(Math.round(-Math.log10(reading.lastDigit)));
}
