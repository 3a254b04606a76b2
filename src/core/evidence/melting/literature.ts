import type { Uncertain } from '../../quantity/uncertain.ts';
import { fromHalfWidth, measured, standardUncertainty } from '../../quantity/uncertain.ts';
import type { DerivationStep } from '../statement.ts';
import type { Subject } from '../subject.ts';
import { COVERAGE, degrees, fixed, rangeText, sourceOf, withSource } from './compare.ts';

export interface ExpectedRange {
  readonly low_C: number;
  readonly high_C: number;
  readonly source: string | undefined;
}

/** Half-width of how far published values of one pure compound lie apart: common practice. */
const LITERATURE_C = 1;

/** The melting range to compare with: of the literature, else of the table of substances. */
export function expectedRange({ literature, substance }: Subject): ExpectedRange | undefined {
  const range = literature.meltingRange_C;
  if (range !== undefined)
    return {
      low_C: Math.min(...range),
      high_C: Math.max(...range),
      source: sourceOf(literature, 'meltingRange_C'),
    };
  const point_C = substance.meltingPoint_C;
  if (point_C === undefined) return undefined;
  return { low_C: point_C, high_C: point_C, source: substance.sources.meltingPoint };
}

export interface Standing {
  readonly place: 'within' | 'above' | 'below';
  /** From the nearer end of the literature range; 0 within it. */
  readonly distance_C: number;
  /** Standard uncertainty of the distance. */
  readonly u_C: number;
  /** The end of the literature range, with its uncertainty. */
  readonly pure: Uncertain;
  readonly expected: string;
  readonly step: DerivationStep;
}

/**
 * Where the end of a melting range lies against the literature. The end is compared, because there
 * the last crystals are in equilibrium with a melt that holds all the impurity.
 */
export function standingAgainst(high: Uncertain, subject: Subject): Standing | undefined {
  const expected = expectedRange(subject);
  if (expected === undefined) return undefined;
  const { low_C, high_C } = expected;
  const uLiterature_C = fromHalfWidth(LITERATURE_C, 'rectangular');
  const u_C = Math.hypot(standardUncertainty(high), uLiterature_C);
  const distance_C =
    high.value > high_C ? high.value - high_C : high.value < low_C ? high.value - low_C : 0;
  const apart = Math.abs(distance_C) > COVERAGE * u_C;
  return {
    place: !apart ? 'within' : distance_C > 0 ? 'above' : 'below',
    distance_C,
    u_C,
    pure: measured('literature', high_C, uLiterature_C),
    expected: withSource(rangeText(low_C, high_C), expected.source),
    step: {
      label: 'End of the range against the literature',
      formula: '|difference| ≤ 2·√(u² + u_literature²), u_literature = 1 °C/√3',
      value: `${fixed(distance_C, 1)} °C, allowed ±${degrees(COVERAGE * u_C)}`,
      source: 'GUM 5.1.2; spread of published values: common practice',
    },
  };
}
