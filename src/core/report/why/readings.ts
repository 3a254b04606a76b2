import { findInstrument } from '../../quantity/instrument.ts';
import type { Instrument } from '../../quantity/instrument.ts';
import { formatNumber, THIN_SPACE } from '../../quantity/print.ts';
import { measurementOf } from '../../record/measurement.ts';
import type { Term } from '../../record/run.ts';
import { figuresRead } from '../common/figures.ts';
import { lineOf } from './derivation.ts';
import type { WhyLine } from './derivation.ts';

/** The readings of a sum, each with who read it, on what and how surely. */
export function readingLines(
  terms: readonly Term[],
  instruments: readonly Instrument[],
): WhyLine[] {
  return terms.map(({ sign, reading }) => {
    const { entry } = reading;
    const { u, unit, instrument, basis } = measurementOf(reading, '', instruments);
    const where = [entry.kind, reading.vessel ?? entry.item].filter(Boolean).join(', ');
    const known = findInstrument(instrument, instruments)?.source;
    const on = basis === 'measured' ? (entry.instrument ?? instrument) : `taken for ${instrument}`;
    const spread = `u = ${formatNumber(u, 2)}${THIN_SPACE}${unit}`;
    const source = [entry.by, on, spread, known].filter(Boolean).join('; ');
    const { value, lastDigit } = reading;
    const figures = value === 0 ? undefined : figuresRead(value, lastDigit);
    return lineOf(sign < 0 ? '−' : '+', where, value, unit, 'measured', source, figures);
  });
}
