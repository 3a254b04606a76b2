import type { Diagnostic } from '../../diagnostic.ts';
import { standardUncertainty } from '../../quantity/uncertain.ts';
import type { Judged, Statement } from '../statement.ts';
import type { Subject, Subjects } from '../subject.ts';
import {
  COVERAGE,
  agreementOf,
  fixed,
  implausible,
  nothingExpected,
  othersThatFit,
  plusMinus,
  sentences,
  withSource,
} from '../melting/compare.ts';
import { USUAL_FALL_PERC } from './index-at.ts';
import type { RefractionEntered } from './schema.ts';
import type { Expected, Reading } from './reading.ts';
import { at, expectedIndex, readingOf, uWithLiterature } from './reading.ts';
import { instrument, waterCheck, waterOf } from './water-check.ts';
import { proportion } from './proportion.ts';

/** Of organic liquids; methanol and the perfluorinated lie low, diiodomethane high (handbooks). */
const LEAST = 1.2;
const MOST = 1.9;
/** So far off by what is left of a solvent no product is: beyond it is another liquid (judgement). */
const FAR = 0.01;
const COLDEST_C = -20;
const HOTTEST_C = 150;

function refused({ index, T_C, compensated, water }: RefractionEntered): Diagnostic | undefined {
  const wrong = [index, ...(water === undefined ? [] : [water.index])].find(
    (n) => !(n >= LEAST && n <= MOST),
  );
  if (wrong !== undefined)
    return implausible(
      'index-implausible',
      `${String(wrong).replace('-', '−')} cannot be the refractive index of a liquid.`,
      `Organic liquids lie between ${LEAST} and ${MOST}. Look at the scale again: some also show the sugar content.`,
    );
  if (compensated !== true && !(T_C >= COLDEST_C && T_C <= HOTTEST_C))
    return implausible(
      'index-implausible',
      `A refractive index is not measured at ${fixed(T_C, 1)} °C.`,
      'Enter the temperature of the prism in °C.',
    );
  return undefined;
}

/** Instruments with a correction of their own mostly make that of sugar in water: from memory. */
function compensation({ compensated, T_C }: RefractionEntered): readonly Diagnostic[] {
  if (compensated !== true || Math.abs(T_C - 20) <= 2) return [];
  return [
    {
      code: 'compensated-index',
      severity: 'note',
      message: `The instrument was at ${fixed(T_C, 1)} °C and corrected its reading to 20 °C by itself.`,
      hint: 'Such corrections are mostly made for sugar in water, and are too small for organic liquids. Switch it off, and enter the temperature.',
    },
  ];
}

function identity(
  entered: RefractionEntered,
  reading: Reading,
  product: Subject,
  expected: Expected,
  others: readonly Subject[],
): Statement {
  const n = at(reading, expected.T_C, entered);
  const u = uWithLiterature(n);
  const difference = n.value - expected.index;
  const agreement = agreementOf(difference, u);
  const { name } = product.substance;
  const fits = othersThatFit(others, (other) => {
    const theirs = expectedIndex(other);
    if (theirs === undefined) return false;
    const there = at(reading, theirs.T_C, entered);
    return agreementOf(there.value - theirs.index, uWithLiterature(there)) === 'agrees';
  });
  const fall = entered.fall_perC ?? USUAL_FALL_PERC;
  return {
    id: 'refractive-index',
    technique: 'refractiveIndex',
    about: 'identity',
    substance: name,
    what: 'Refractive index',
    measured: `${plusMinus(n.value, standardUncertainty(n))} at ${fixed(expected.T_C, 0)} °C`,
    expected: withSource(
      `${fixed(expected.index, 4)} at ${fixed(expected.T_C, 0)} °C`,
      expected.source,
    ),
    agreement,
    weight: Math.abs(difference) > FAR ? 'moderate' : 'weak',
    says:
      agreement === 'agrees'
        ? `The refractive index is that of ${name}.`
        : `The refractive index is ${fixed(Math.abs(difference), 4)} ${difference > 0 ? 'above' : 'below'} that of ${name}: another liquid, or something dissolved in it (a solvent, water).`,
    limits: sentences(
      'Many liquids share a refractive index, and two errors can cancel in a mixture.',
      fits !== '' && `So does ${fits}.`,
      'A little of a liquid with nearly the same index is not seen.',
      entered.compensated === true &&
        'The instrument corrected the temperature by itself, and not for this liquid.',
      Math.abs(reading.T_C - expected.T_C) > 10 &&
        'The temperatures lie far apart, so that the correction is most of the uncertainty.',
    ),
    derivation: [
      ...reading.steps,
      {
        label: `From ${fixed(reading.T_C, 1)} °C to ${fixed(expected.T_C, 1)} °C`,
        formula: `n + ${fall}·(T − T′)`,
        value: plusMinus(n.value, standardUncertainty(n)),
        source:
          entered.fall_perC === undefined
            ? 'common practice for organic liquids; single ones lie between 0.0003 and 0.0006'
            : 'as entered',
      },
      {
        label: 'Against the literature',
        formula: '|difference| ≤ 2·√(u² + u_literature²), u_literature = 0.0005/√3',
        value: `${fixed(difference, 4)}, allowed ±${fixed(COVERAGE * u, 4)}`,
        source: 'GUM 5.1.2; spread of published values: common practice',
      },
    ],
  };
}

/** A refractive index judged: brought to the temperature of the literature value, and compared. */
export function judgeRefraction(entered: RefractionEntered, subjects: Subjects): Judged {
  const refusal = refused(entered);
  if (refusal !== undefined) return { statements: [], diagnostics: [refusal] };
  const water = waterOf(entered);
  const check = waterCheck(water);
  const diagnostics = [...check.diagnostics, ...compensation(entered)];
  const checked = instrument(water, check.expected);
  const reading = readingOf(entered, check.error);
  const { product, others } = subjects;
  const expected = product && expectedIndex(product);
  if (product === undefined || expected === undefined) {
    const n = at(reading, 20, entered);
    const base = {
      id: 'refractive-index',
      technique: 'refractiveIndex',
      about: 'identity',
      what: 'Refractive index',
      measured: `${plusMinus(n.value, standardUncertainty(n))} at 20 °C`,
      derivation: reading.steps,
    } as const;
    return {
      statements: [nothingExpected(base, product?.substance.name, 'refractive index'), ...checked],
      diagnostics,
    };
  }
  const first = identity(entered, reading, product, expected, others);
  const mixtures =
    first.agreement === 'agrees'
      ? []
      : others.flatMap((other) => proportion(entered, reading, product, expected, other) ?? []);
  return { statements: [first, ...mixtures.slice(0, 3), ...checked], diagnostics };
}
