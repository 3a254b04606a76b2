import type { Uncertain } from '../../quantity/uncertain.ts';
import { add, fromHalfWidth, measured, standardUncertainty } from '../../quantity/uncertain.ts';
import { fixed, plusMinus, rangeText, sourceOf } from '../melting/compare.ts';
import { correctedRange } from '../melting/range.ts';
import type { DerivationStep } from '../statement.ts';
import type { Subject } from '../subject.ts';
import type { Association } from './pressure.ts';
import { NORMAL_KPA, boilingAtPressure, toKPa } from './pressure.ts';
import type { BoilingEntered } from './schema.ts';

export const LEAST_KPA = 0.001;
export const MOST_KPA = 120;
/** Of weather and height, where nobody read a barometer: half-width in kPa (common practice). */
const UNREAD_KPA = 4;
/** Of a barometer that was read, and where a still counts as open to the air: common practice. */
const BAROMETER_U_KPA = 0.3;
const OPEN_KPA = 60;
/** Of a gauge that was read, relative and at least: common practice. */
const GAUGE_RELATIVE_U = 0.02;
const GAUGE_LEAST_KPA = 0.1;
/** Half-width by which the inverted capillary of a few drops errs: common practice. */
const MICRO_C = 2;
/** Half-width of how far published values lie apart: common practice. */
const LITERATURE_C = 1;

export interface Boiling {
  readonly low: Uncertain;
  readonly high: Uncertain;
  /** At this pressure. */
  readonly at_kPa: number;
  readonly text: string;
  readonly steps: readonly DerivationStep[];
}

export interface Expected {
  readonly value_C: number;
  readonly at_kPa: number;
  readonly source: string | undefined;
}

export function expectedBoiling({ literature, substance }: Subject): Expected | undefined {
  const at_kPa = literature.boilingPressure_kPa ?? NORMAL_KPA;
  if (literature.boilingPoint_C !== undefined && at_kPa >= LEAST_KPA && at_kPa <= MOST_KPA)
    return {
      value_C: literature.boilingPoint_C,
      at_kPa,
      source: sourceOf(literature, 'boilingPoint_C'),
    };
  if (substance.boilingPoint_C === undefined) return undefined;
  return {
    value_C: substance.boilingPoint_C,
    at_kPa: NORMAL_KPA,
    source: substance.sources.boilingPoint,
  };
}

export const kPaText = (p_kPa: number): string => `${fixed(p_kPa, p_kPa < 10 ? 2 : 1)} kPa`;

function pressureOf(pressure: BoilingEntered['pressure']): Uncertain {
  if (pressure === undefined)
    return measured('pressure', NORMAL_KPA, fromHalfWidth(UNREAD_KPA, 'rectangular'));
  const p_kPa = toKPa(pressure.value, pressure.unit);
  const u =
    p_kPa > OPEN_KPA
      ? BAROMETER_U_KPA
      : GAUGE_RELATIVE_U * p_kPa + Math.min(GAUGE_LEAST_KPA, 0.1 * p_kPa);
  return measured('pressure', p_kPa, u);
}

/** The range as it would be at another pressure. */
export function boilingOf(
  entered: BoilingEntered,
  at_kPa: number,
  association: Association,
): Boiling {
  const read = correctedRange(entered.low_C, entered.high_C, entered.thermometer);
  const pressure = pressureOf(entered.pressure);
  const micro = measured(
    'method',
    0,
    entered.method === 'microscale' ? fromHalfWidth(MICRO_C, 'rectangular') : 0,
  );
  const correct = (T: Uncertain): Uncertain =>
    boilingAtPressure(add(T, micro), pressure, at_kPa, association);
  const [low, high] = [correct(read.low), correct(read.high)];
  const coefficient: Record<Association, string> = {
    plain: 'φ = 4.77, a liquid without O–H',
    hydrogenBonded: 'φ = 5.72, a liquid with O–H',
    unknown: 'φ = 5.2, structure not known',
  };
  return {
    low,
    high,
    at_kPa,
    text: `${rangeText(low.value, high.value)} at ${kPaText(at_kPa)}`,
    steps: [
      ...read.steps,
      {
        label: `From ${kPaText(pressure.value)} to ${kPaText(at_kPa)}`,
        formula: `Δt = T·L/(φ + 0.15·L), L = log₁₀(101.325 kPa/p), ${coefficient[association]}`,
        value: `${plusMinus(high.value, standardUncertainty(high))} °C`,
        source: 'Hass and Newton, with φ from the rule of Sydney Young',
      },
    ],
  };
}

/** How far a literature value lies outside a range; 0 within it. */
export function distanceTo(value_C: number, { low, high }: Boiling): number {
  if (value_C > high.value) return high.value - value_C;
  return value_C < low.value ? low.value - value_C : 0;
}

export function uOf({ high }: Boiling): number {
  return Math.hypot(standardUncertainty(high), fromHalfWidth(LITERATURE_C, 'rectangular'));
}
