import { fromHalfWidth } from '../../quantity/uncertain.ts';
import type { Statement } from '../statement.ts';
import type { Subject, Subjects } from '../subject.ts';
import { COVERAGE, degrees, fixed, nothingExpected, rangeText, subjectsIn } from './compare.ts';
import { behaviourOf } from './fusion.ts';
import type { CorrectedRange } from './range.ts';
import { correctedRange } from './range.ts';
import { expectedRange } from './literature.ts';
import type { MeltingEntered } from './schema.ts';

/** A reading against a reading of the same thermometer: its error cancels, two readings do not. */
const U_PAIR_C = Math.SQRT2 * fromHalfWidth(0.5, 'rectangular');
/** A mixture of two substances begins to melt at their eutectic: widened beyond this (common practice). */
const WIDENED_C = 2;
/** Lowered by more than this, a mixture is one of two substances whatever the purity: judgement. */
const CLEAR_C = 10;

interface Reference {
  readonly low_C: number;
  readonly high_C: number;
  readonly text: string;
  /** u of the difference to the mixture. */
  readonly u_C: number;
  /** Where the higher of the two ends; the mixture of an impure and a pure sample lies between. */
  readonly highest_C: number;
}

function withName(name: string, subjects: Subjects): Subject | undefined {
  const key = name.trim().toLowerCase();
  return subjectsIn(subjects).find(({ substance }) =>
    [substance.name, ...substance.synonyms].some((own) => own.toLowerCase() === key),
  );
}

/** The lowest of the ranges that the mixture would keep if both were one substance. */
function referenceOf(entered: MeltingEntered, subjects: Subjects): Reference | undefined {
  const own = [
    ['the product alone', entered.alone] as const,
    [
      `${entered.mixedWith?.substance ?? 'the known sample'} alone`,
      entered.mixedWith?.range,
    ] as const,
  ].flatMap(([whose, range]): Reference[] => {
    if (range === undefined) return [];
    const { low, high } = correctedRange(range.low_C, range.high_C, entered.thermometer);
    const text = `${rangeText(low.value, high.value)} (${whose})`;
    const high_C = high.value;
    return [{ low_C: low.value, high_C, text, u_C: U_PAIR_C, highest_C: high_C }];
  });
  const [lowest, ...more] = own.toSorted((a, b) => a.high_C - b.high_C);
  if (lowest !== undefined)
    return {
      ...lowest,
      highest_C: more.at(-1)?.high_C ?? lowest.high_C,
      text: own.map(({ text }) => text).join('; '),
    };
  const subject =
    entered.mixedWith === undefined
      ? subjects.product
      : withName(entered.mixedWith.substance, subjects);
  const expected = subject && expectedRange(subject);
  if (expected === undefined) return undefined;
  const { low_C, high_C, source } = expected;
  const u_C = Math.hypot(U_PAIR_C, Math.SQRT2 * fromHalfWidth(1, 'rectangular'));
  return {
    low_C,
    high_C,
    text: `${rangeText(low_C, high_C)} (${source ?? 'source not given'})`,
    u_C,
    highest_C: high_C,
  };
}

const CAVEATS =
  'Rare pairs of different substances do not lower each other (isomorphous crystals, some racemates and compounds of the two), and a mixture that happens to be eutectic melts sharply. Try it with more and with less of the known sample.';

/**
 * A mixed melting range: two samples of one substance keep their range, two substances lower and
 * widen it (common practice of qualitative organic analysis).
 */
export function judgeMixed(
  range: CorrectedRange,
  entered: MeltingEntered,
  subjects: Subjects,
): readonly Statement[] {
  const asked = entered.mixedWith?.substance;
  const subject = asked === undefined ? subjects.product : withName(asked, subjects);
  const known = subject?.substance.name ?? asked;
  const base = {
    id: 'melting-mixed',
    technique: 'meltingRange',
    about: 'identity',
    what: 'Mixed melting range',
    measured: range.text,
  } as const;
  const reference = referenceOf(entered, subjects);
  if (known === undefined || reference === undefined)
    return [nothingExpected({ ...base, derivation: range.steps }, known, 'melting range')];
  const lowered_C = reference.high_C - range.high.value;
  const widened_C =
    range.high.value - range.low.value - Math.max(0, reference.high_C - reference.low_C);
  const limit_C = COVERAGE * reference.u_C;
  const raised = range.high.value - reference.highest_C > 2 * limit_C;
  const apart = lowered_C > limit_C || widened_C > WIDENED_C + limit_C;
  const isProduct = subject !== undefined && subject === subjects.product;
  const paired = entered.alone !== undefined;
  // An impure sample lowers a pure one a little, too, and without its own range nothing tells
  const unclear = apart && !paired && Math.max(lowered_C, widened_C) < CLEAR_C;
  const differs = apart && !unclear;
  const doubtful = !differs && (unclear || raised || entered.decomposes === true);
  return [
    {
      ...base,
      substance: known,
      expected: `${reference.text}, if both are one substance`,
      agreement: doubtful ? 'cannotTell' : differs ? 'disagrees' : 'agrees',
      weight: doubtful ? 'weak' : paired && lowered_C > -limit_C ? 'strong' : 'moderate',
      says: unclear ? alone(known) : saying(doubtful, differs, known, lowered_C, isProduct),
      limits: [CAVEATS, subject === undefined ? '' : behaviourOf(subject.substance)]
        .filter((text) => text !== '')
        .join(' '),
      derivation: [
        ...range.steps,
        {
          label: 'End lowered by',
          formula: 'end of the lower of the pure ranges − end of the mixed range',
          value: `${fixed(lowered_C, 1)} °C, allowed ${degrees(limit_C)}`,
          source: 'the error of the thermometer cancels; readings ±0.5 °C: common practice',
        },
        { label: 'Widened by', value: degrees(Math.max(0, widened_C)) },
      ],
    },
  ];
}

function alone(known: string): string {
  return `Mixed with ${known} the range falls or widens a little: the two are different, or the sample is impure. Its own range, measured beside, would tell.`;
}

function saying(
  doubtful: boolean,
  differs: boolean,
  known: string,
  lowered_C: number,
  isProduct: boolean,
): string {
  if (doubtful)
    return `The mixture with ${known} does not melt as a plain mixture does; it decides nothing.`;
  if (differs)
    return lowered_C > 0.05
      ? `Mixed with ${known} the range falls by ${degrees(lowered_C)} or widens: the two are different, or one is impure.`
      : `Mixed with ${known} the range widens: the two are different, or one is impure.`;
  return isProduct
    ? `Mixed with ${known} the range is not lowered, as when both are one substance.`
    : `Mixed with ${known} the range is not lowered: the sample is likely ${known} itself, and not what was meant.`;
}
