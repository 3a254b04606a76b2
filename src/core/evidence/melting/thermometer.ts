import type { Diagnostic } from '../../diagnostic.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';
import { add, exact, fromHalfWidth, measured } from '../../quantity/uncertain.ts';
import type { DerivationStep } from '../statement.ts';
import { degrees, fixed } from './compare.ts';
import type { MeltingEntered, Thermometer } from './schema.ts';

export interface CorrectedReading {
  /** In °C; its parts are the reading, and the scale, which all readings of one range share. */
  readonly T: Uncertain;
  readonly steps: readonly DerivationStep[];
}

type Points = NonNullable<Thermometer['calibration']>;

/** Half-width of the greatest error of an unchecked thermometer: common practice. */
const UNCHECKED_C = 1;
/** Half-width of one reading of a capillary or a thread: common practice. */
const READING_C = 0.5;
/** Near the melting point, °C/min: common practice is 1 to 2. */
const FASTEST_C_MIN = 3;
/** u of a calibration: the standard's own range and two readings (common practice). */
const CALIBRATED_U_C = 0.3;
/** What is added to it for each degree beyond the last standard: common practice. */
const BEYOND_U = 0.02;
/** Apparent expansion of the thread in glass, 1/°C: mercury as in handbooks, alcohol from memory. */
const THREAD: Record<NonNullable<Thermometer['kind']>, number> = {
  mercury: 0.00016,
  alcohol: 0.001,
  digital: 0,
};
/** The mean temperature of the thread is known badly: common practice. */
const STEM_RELATIVE_U = 0.2;

/**
 * The emergent-stem correction in °C: k·N·(t − t_stem), N the degrees of the scale outside the bath,
 * k = 0.00016 for mercury in glass (handbooks of laboratory practice).
 */
export function stemCorrection(
  reading_C: number,
  stem: NonNullable<Thermometer['stem']>,
  kind: Thermometer['kind'] = 'mercury',
): number {
  return THREAD[kind] * stem.emergent_C * (reading_C - stem.stem_C);
}

/** Standards in order of their readings; undefined where a higher reading would be a lower truth. */
function inOrder(points: Points): Points | undefined {
  const sorted = points.toSorted((a, b) => a.measured_C - b.measured_C);
  const rises = sorted.every((point, i) => {
    const before = sorted[i - 1];
    return (
      before === undefined || (point.measured_C > before.measured_C && point.true_C > before.true_C)
    );
  });
  return rises ? sorted : undefined;
}

/**
 * What the standards say of a reading: linear between the two on either side, and the error of the
 * nearest one beyond them. Rises with the reading, whatever the standards.
 */
function calibrated(reading_C: number, sorted: Points): { value_C: number; beyond_C: number } {
  const below = sorted.findLast((point) => point.measured_C <= reading_C);
  const above = sorted.find((point) => point.measured_C >= reading_C);
  if (below !== undefined && above !== undefined) {
    const span = above.measured_C - below.measured_C;
    const share = span === 0 ? 0 : (reading_C - below.measured_C) / span;
    return { value_C: below.true_C + share * (above.true_C - below.true_C), beyond_C: 0 };
  }
  const nearest = (below ?? above)!;
  return {
    value_C: reading_C + nearest.true_C - nearest.measured_C,
    beyond_C: Math.abs(reading_C - nearest.measured_C),
  };
}

/** What is wrong with what was entered of a thermometer. */
export function thermometerDiagnostics(
  thermometer: Thermometer | undefined,
  high_C: number,
): Diagnostic[] {
  const found: Diagnostic[] = [];
  const points = thermometer?.calibration;
  const sorted = points === undefined ? undefined : inOrder(points);
  if (points !== undefined && sorted === undefined)
    found.push({
      code: 'calibration-contradicts',
      severity: 'warning',
      message: 'Two standards of the thermometer contradict each other; none of them is used.',
      hint: 'A higher reading must belong to a higher true temperature. Look for swapped numbers.',
    });
  const off = sorted?.find((point) => Math.abs(point.true_C - point.measured_C) > 10);
  if (off !== undefined)
    found.push({
      code: 'calibration-far-off',
      severity: 'warning',
      message: `The thermometer read ${degrees(off.measured_C)} for a standard of ${degrees(off.true_C)}.`,
      hint: 'An error of more than 10 °C is more likely the wrong standard. Measure it again.',
    });
  if (sorted !== undefined && calibrated(high_C, sorted).beyond_C > 30)
    found.push({
      code: 'calibration-far-away',
      severity: 'note',
      message: 'No standard of the thermometer lies within 30 °C of this reading.',
      hint: 'Measure a standard that melts near the product.',
    });
  if (thermometer?.stem !== undefined && (sorted !== undefined || thermometer.kind === 'digital'))
    found.push({
      code: 'stem-not-applied',
      severity: 'note',
      message:
        sorted === undefined
          ? 'A digital thermometer has no thread, so no stem correction is made.'
          : 'The stem correction is left out: standards in the same apparatus hold it already.',
      hint: 'Leave out the stem, or the standards.',
    });
  return found;
}

/** A reading with its corrections and their uncertainty. `end` tells the readings apart. */
export function correctReading(
  reading_C: number,
  thermometer: Thermometer | undefined,
  end: string,
): CorrectedReading {
  const read = measured(`reading, ${end}`, reading_C, fromHalfWidth(READING_C, 'rectangular'));
  const sorted = thermometer?.calibration && inOrder(thermometer.calibration);
  if (sorted !== undefined) {
    const { value_C, beyond_C } = calibrated(reading_C, sorted);
    const u_C = Math.hypot(CALIBRATED_U_C, BEYOND_U * beyond_C);
    return {
      T: add(read, measured('thermometer', value_C - reading_C, u_C)),
      steps: [
        {
          label: `Thermometer, ${end}`,
          formula: 'reading + error of the standards, linear between two of them',
          value: `${degrees(reading_C)} → ${degrees(value_C)}`,
          source: `${sorted.length} ${sorted.length === 1 ? 'standard' : 'standards'} measured in the same apparatus`,
        },
      ],
    };
  }
  const tolerance_C = thermometer?.tolerance_C ?? UNCHECKED_C;
  const scale = measured('thermometer', 0, fromHalfWidth(tolerance_C, 'rectangular'));
  const stem = thermometer?.stem;
  if (stem === undefined || thermometer?.kind === 'digital')
    return { T: add(read, scale), steps: [] };
  const correction_C = stemCorrection(reading_C, stem, thermometer?.kind);
  const outside = measured('stem', correction_C, STEM_RELATIVE_U * Math.abs(correction_C));
  return {
    T: add(add(read, scale), add(exact(0), outside)),
    steps: [
      {
        label: `Emergent stem, ${end}`,
        formula: `${THREAD[thermometer?.kind ?? 'mercury']}·N·(t − t_stem), N = ${fixed(stem.emergent_C, 0)}`,
        value: `${correction_C < 0 ? '' : '+'}${fixed(correction_C, 2)} °C`,
        source: 'handbooks of laboratory practice',
      },
    ],
  };
}

/** Whether any correction was made: "118.5–120.0 °C, corrected". */
export function isCorrected(thermometer: Thermometer | undefined): boolean {
  if (thermometer?.calibration !== undefined) return inOrder(thermometer.calibration) !== undefined;
  return thermometer?.stem !== undefined && thermometer.kind !== 'digital';
}

/** Whether the thermometer cannot have followed the sample. */
export function isFast({ heatingRate_C_min }: MeltingEntered): boolean {
  return heatingRate_C_min !== undefined && heatingRate_C_min > FASTEST_C_MIN;
}
