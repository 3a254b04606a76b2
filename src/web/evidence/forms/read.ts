import type { DraftReader } from './draft.ts';

/** What a laboratory can reach; a judge says later what its apparatus can. */
export const COLDEST_C = -273;
export const HOTTEST_C = 3000;

/** A number above nought that has to be there. */
export function needPositive(reader: DraftReader, field: string, high = Infinity): number {
  const value = reader.need(field, -Infinity, high);
  if (!(value > 0)) reader.say(field, 'More than 0 is expected here.');
  return value;
}

/** A number above nought; undefined where there is none. */
export function positive(reader: DraftReader, field: string, high = Infinity): number | undefined {
  const value = reader.number(field, -Infinity, high);
  if (value !== undefined && !(value > 0)) reader.say(field, 'More than 0 is expected here.');
  return value;
}

/** A temperature in °C that has to be there. */
export function needTemperature(reader: DraftReader, field: string): number {
  return reader.need(field, COLDEST_C, HOTTEST_C);
}

/** Both ends of a range in °C. */
export function needRange(reader: DraftReader, low: string, high: string) {
  const [from, to] = [reader.number(low), reader.number(high)];
  if (from !== undefined && to !== undefined && to < from)
    reader.say(high, 'This is below where it began.');
  return { low_C: needTemperature(reader, low), high_C: needTemperature(reader, high) };
}

/** Both ends, or neither. */
export function readRange(reader: DraftReader, low: string, high: string) {
  const isEmpty = reader.text(low) === undefined && reader.text(high) === undefined;
  return isEmpty ? undefined : needRange(reader, low, high);
}

/** A choice; the first of its values stands until another is made. */
export function readChoice<const Value extends string>(
  reader: DraftReader,
  field: string,
  values: readonly [Value, ...Value[]],
): Value {
  const chosen = reader.text(field);
  return values.find((value) => value === chosen) ?? values[0];
}

/** The fields, unless there is nothing in any of them. */
export function some<Fields extends object>(fields: Fields): Fields | undefined {
  return Object.values(fields).some((value) => value !== undefined) ? fields : undefined;
}
