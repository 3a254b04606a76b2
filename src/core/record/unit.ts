import type { AmountKind } from '../quantity/amount-model.ts';
import { readUnitAt } from '../quantity/unit.ts';
import type { Unit } from '../quantity/unit.ts';

const READ = new Map<string, Unit | undefined>();
const KEPT_UNITS = 500;

/** The unit that a cell holds, whole; undefined for what is no unit. */
export function unitOf(text: string): Unit | undefined {
  const trimmed = text.trim();
  if (READ.has(trimmed)) return READ.get(trimmed);
  const reading = readUnitAt(trimmed, 0);
  const unit = reading !== undefined && reading.end === trimmed.length ? reading.unit : undefined;
  if (READ.size < KEPT_UNITS) READ.set(trimmed, unit);
  return unit;
}

/** A number in the base unit of its kind. A power of ten moves the point and does not multiply. */
export function inBase(value: number, unit: Unit): number {
  if (unit.factor !== undefined) return value * unit.factor + (unit.offset ?? 0);
  if (unit.power === undefined || unit.power === 0) return value;
  const [mantissa, exponent] = value.toExponential().split('e');
  return Number(`${mantissa}e${Number(exponent) + unit.power}`);
}

/** What one unit of the last digit written is worth in the base unit. */
export function lastDigit(decimals: number, unit: Unit): number {
  return Number(`1e${(unit.power ?? 0) - decimals}`) * (unit.factor ?? 1);
}

/** In words, for the message that says which unit was expected. */
export const KIND_WORDS: Readonly<Partial<Record<AmountKind, string>>> = {
  mass: 'a mass',
  volume: 'a volume',
  temperature: 'a temperature',
  time: 'a time',
  amount: 'an amount of substance',
  percent: 'a percentage',
};
