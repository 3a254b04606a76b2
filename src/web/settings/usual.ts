import { allInstruments } from '../../core/quantity/instrument.ts';
import type { Instrument } from '../../core/quantity/instrument.ts';
import { figureText } from './figure-in.ts';
import type { Row, Table } from './form.ts';

const GLASS_KINDS = ['pipette', 'burette', 'cylinder', 'volumetric flask', 'piston pipette'];

/** Instruments of the built-in table that a laboratory can take over and change. */
export function usualOnes(table: Table): readonly Instrument[] {
  const kinds = table === 'balances' ? ['balance'] : GLASS_KINDS;
  return allInstruments().filter(
    ({ kind, toleranceOf }) => kinds.includes(kind) && toleranceOf === 'scale',
  );
}

/** One of them as a row, under an id that no row has yet. */
export function rowOfUsual(
  instrument: Instrument,
  table: Table,
  rows: readonly Row[],
  decimalSign: '.' | ',',
): Row {
  const { capacity = 0, readability = 0, repeatability = 0, tolerance } = instrument;
  const figures: Record<string, number> =
    table === 'balances'
      ? {
          readability_g: readability,
          repeatability_g: repeatability,
          linearity_g: tolerance,
          capacity_g: capacity,
        }
      : { volume_mL: capacity, tolerance_mL: tolerance };
  const taken = rows.filter(({ id }) => id === instrument.id || id.startsWith(`${instrument.id}-`));
  const nth = taken.length + 1;
  return {
    id: nth === 1 ? instrument.id : `${instrument.id}-${nth}`,
    name: nth === 1 ? instrument.name : `${instrument.name}, no. ${nth}`,
    figures: Object.fromEntries(
      Object.entries(figures).map(([key, value]) => [key, figureText(value, decimalSign)]),
    ),
  };
}
