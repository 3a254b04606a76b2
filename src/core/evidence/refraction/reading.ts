import type { Uncertain } from '../../quantity/uncertain.ts';
import { add, fromHalfWidth, measured, standardUncertainty } from '../../quantity/uncertain.ts';
import type { DerivationStep } from '../statement.ts';
import type { Subject } from '../subject.ts';
import { fixed, sourceOf } from '../melting/compare.ts';
import { indexWithUncertainty } from './index-at.ts';
import type { RefractionEntered } from './schema.ts';

/** Half-width of a usual bench refractometer: common practice. */
const TOLERANCE = 0.0002;
/** Half-width of how far published values lie apart: common practice. */
const LITERATURE = 0.0005;
/** u of an instrument that water has just checked: one reading of water (common practice). */
const CHECKED_U = 0.0001;

/**
 * Half-width of what an instrument's own correction leaves out, 1/°C: it is made for sugar in water,
 * about 0.0001, where organic liquids need 0.0003 to 0.0006 (common practice).
 */
const OWN_CORRECTION_PERC = 0.00045;

export interface Expected {
  readonly index: number;
  readonly T_C: number;
  readonly source: string | undefined;
}

export interface Reading {
  readonly n: Uncertain;
  readonly T_C: number;
  readonly steps: readonly DerivationStep[];
}

export function expectedIndex({ literature }: Subject): Expected | undefined {
  if (literature.refractiveIndex === undefined) return undefined;
  return {
    index: literature.refractiveIndex,
    T_C: literature.refractiveIndexT_C ?? 20,
    source: sourceOf(literature, 'refractiveIndex'),
  };
}

export function readingOf(entered: RefractionEntered, error: number | undefined): Reading {
  const scale =
    error === undefined
      ? fromHalfWidth(entered.tolerance ?? TOLERANCE, 'rectangular')
      : Math.hypot(CHECKED_U, fromHalfWidth(0.0001, 'rectangular'));
  const own =
    entered.compensated === true
      ? fromHalfWidth(OWN_CORRECTION_PERC * Math.abs(entered.T_C - 20), 'rectangular')
      : 0;
  const u = Math.hypot(scale, own);
  const n = measured('reading', entered.index, u);
  const read = {
    label: 'Read',
    value:
      `${fixed(entered.index, 4)} at ${fixed(entered.T_C, 1)} °C` +
      (entered.compensated === true ? ', corrected to 20 °C by the instrument' : ''),
  };
  const T_C = entered.compensated === true ? 20 : entered.T_C;
  if (error === undefined) return { n, T_C, steps: [read] };
  return {
    n: add(n, measured('water', -error, 0)),
    T_C,
    steps: [
      read,
      {
        label: 'Instrument, checked with water',
        formula: 'reading − (reading of water − index of water)',
        value: fixed(entered.index - error, 4),
        source: 'table of the refractive index of water',
      },
    ],
  };
}

export function at(reading: Reading, T_C: number, entered: RefractionEntered): Uncertain {
  return indexWithUncertainty(reading.n, reading.T_C, T_C, entered.fall_perC);
}

export const uWithLiterature = (n: Uncertain): number =>
  Math.hypot(standardUncertainty(n), fromHalfWidth(LITERATURE, 'rectangular'));
