import { plainName } from '../../../core/record/near.ts';
import type { Line } from '../record/standing.ts';
import type { BenchField } from '../sheet.ts';
import type { Tare } from './typed-field.ts';

/** Read off a balance. */
export const isMass = ({ unit }: Pick<BenchField, 'unit'>): boolean =>
  unit === 'g' || unit === 'mg' || unit === 'kg';

/** A cooling bath lies below zero, a mass does not; a melting range only where one is expected there. */
export const mayBeNegative = ({ kind, low = 0 }: BenchField): boolean =>
  kind === 'temperature' || (kind === 'meltingRange' && low < 0);

/** How a field is filled: with the keypad, with words, or with the time. */
export const FILLED_WITH: Readonly<Record<BenchField['kind'], 'number' | 'words' | 'time'>> = {
  charge: 'number',
  tare: 'number',
  gross: 'number',
  net: 'number',
  temperature: 'number',
  meltingRange: 'number',
  observation: 'words',
  lot: 'words',
  time: 'time',
};

export const stands = ({ struck, adrift }: Line): boolean => struck === undefined && !adrift;

/** The tare in g that a gross is read against: the last one that stands. */
export function tareFor(field: BenchField, lines: readonly Line[]): Tare {
  const { kind, vessel } = field;
  if (kind !== 'gross' || vessel === undefined) return undefined;
  const tare = lines.findLast(
    (line) =>
      stands(line) &&
      line.entry.kind === 'tare' &&
      line.entry.unit === 'g' &&
      plainName(line.entry.vessel ?? '') === plainName(vessel),
  );
  if (tare?.entry.value === undefined) return undefined;
  const { value, decimals } = tare.entry;
  return { value, ...(decimals !== undefined && { decimals }) };
}
