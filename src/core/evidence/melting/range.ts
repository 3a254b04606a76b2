import type { Uncertain } from '../../quantity/uncertain.ts';
import { standardUncertainty } from '../../quantity/uncertain.ts';
import type { DerivationStep } from '../statement.ts';
import { plusMinus, rangeText } from './compare.ts';
import type { Thermometer } from './schema.ts';
import { correctReading, isCorrected } from './thermometer.ts';

/** A melting or boiling range after its corrections. */
export interface CorrectedRange {
  readonly low: Uncertain;
  readonly high: Uncertain;
  /** "118.5–120.0 °C, corrected". */
  readonly text: string;
  readonly steps: readonly DerivationStep[];
}

/** A range in order, its two readings corrected by one thermometer. */
export function correctedRange(
  a_C: number,
  b_C: number,
  thermometer: Thermometer | undefined,
): CorrectedRange {
  const [low_C, high_C] = [Math.min(a_C, b_C), Math.max(a_C, b_C)];
  const low = correctReading(low_C, thermometer, 'beginning');
  const high = correctReading(high_C, thermometer, 'end');
  const text = rangeText(low.T.value, high.T.value);
  const corrected = isCorrected(thermometer);
  return {
    low: low.T,
    high: high.T,
    text: corrected ? `${text}, corrected` : text,
    steps: [
      { label: 'Read', value: rangeText(low_C, high_C) },
      ...low.steps,
      ...high.steps,
      {
        label: 'End of the range; ± is 2 u',
        value: `${plusMinus(high.T.value, standardUncertainty(high.T))} °C`,
      },
    ],
  };
}
